import { execFile } from 'node:child_process';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { built } from '../../set-up-build.ts';
import { temporaryFolder } from '../../set-up-program.ts';

type Ran = { code: number; stdout: string; stderr: string };

const ask = (...args: string[]): Promise<Ran> =>
  new Promise((resolve) => {
    const env = { PATH: process.env['PATH'] };
    execFile(process.execPath, [built('ask.js'), ...args], { env }, (error, stdout, stderr) =>
      resolve({ code: error ? Number(error.code) : 0, stdout, stderr }),
    );
  });

const objects = ({ stdout }: Ran) =>
  stdout
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line) as { act: string; error: string | null; replies: { text: string }[] });

test('--json prints one object a line and nothing else', async () => {
  const ran = await ask('--json', '@ines /critter name critter:bristle worm', '# remark', '@ines press Whole entry');
  expect(ran).toMatchObject({ code: 0, stderr: '' });
  const acts = objects(ran);
  expect(acts.map(({ act }) => act)).toEqual(['@ines /critter name critter:bristle worm', '@ines press Whole entry']);
  expect(acts[1]!.replies[0]!.text).toMatch(/^Common scavenging bristle worm, the whole entry\n/);
});

test('a script comes from a file; a line that fails does not stop the rest, and the exit code tells', async () => {
  const file = join(temporaryFolder(), 'evening.txt');
  writeFileSync(file, 'member ines\n\n# a remark\n@ines sings\r\nrestart\n@ines says @bot aiptasia\n');
  const ran = await ask('--json', '--file', file);
  expect(ran.code).toBe(1);
  expect(objects(ran).map(({ error }) => error)).toEqual([null, expect.stringContaining('"sings"'), null, null]);
});

test('--data keeps the database, --at sets the clock; what is wrong is told', async () => {
  const folder = temporaryFolder();
  const kept = await ask('--data', folder, '--at', '2026-12-01T19:00Z', '@ines /critter name critter:aiptasia');
  expect(kept).toMatchObject({ code: 0, stderr: '' });
  expect(kept.stdout).toContain('Aiptasia (glass anemone) — Take it out');
  expect(existsSync(join(folder, 'reef-club.db'))).toBe(true);
  expect(await ask('--data', folder, '@ines says hello')).toMatchObject({ code: 0, stderr: '' });
  expect(await ask('--at', 'noon', 'restart')).toMatchObject({
    code: 2,
    stderr: '--at: came noon, expected an instant such as 2026-12-01T19:00Z\n',
  });
  expect(await ask()).toMatchObject({ code: 2, stdout: expect.stringContaining('npm run --silent ask') });
  expect(await ask('--help')).toMatchObject({ code: 0, stdout: expect.stringContaining('npm run --silent ask') });
});
