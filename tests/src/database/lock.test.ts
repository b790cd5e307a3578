import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, onTestFinished, test } from 'vitest';
import { FolderInUse, lockFolder } from '../../../src/database/lock.ts';
import { openDatabase } from '../../../src/database/open.ts';
import { dataFolder } from './folder.ts';

describe('a data folder', () => {
  test('is held by one bot only, until that one closes it', () => {
    const folder = dataFolder();
    const first = openDatabase(folder);
    expect(() => openDatabase(folder)).toThrow(FolderInUse);
    expect(() => openDatabase(folder)).toThrow(/Another bot is running on the data folder .*Stop the other one/s);
    // A refused second bot does not loosen the hold of the first.
    expect(() => openDatabase(folder)).toThrow(FolderInUse);
    first.close();
    openDatabase(folder).close();
  });

  test('does not hold another folder', () => {
    const first = openDatabase(dataFolder());
    openDatabase(dataFolder()).close();
    first.close();
  });

  test('can be released twice, and its lock file stays', () => {
    const folder = dataFolder();
    const { release } = lockFolder(folder);
    release();
    expect(() => release()).not.toThrow();
    expect(existsSync(join(folder, 'in-use.lock'))).toBe(true);
    lockFolder(folder).release();
  });

  test('held by another process is refused, and free once that process is killed', async () => {
    const folder = dataFolder();
    const holder = spawn(process.execPath, ['-e', HOLD, join(folder, 'in-use.lock')], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    onTestFinished(() => void holder.kill('SIGKILL'));
    await once(holder.stdout, 'data');
    expect(() => openDatabase(folder)).toThrow(FolderInUse);
    holder.kill('SIGKILL');
    await once(holder, 'exit');
    openDatabase(folder).close();
  });

  test('with a lock file that is no lock file is refused in words that help', () => {
    const folder = dataFolder();
    writeFileSync(join(folder, 'in-use.lock'), 'a letter and no lock\n'.repeat(300));
    expect(() => openDatabase(folder)).toThrow(/lock file .* delete in-use\.lock/);
  });
});

const HOLD = `
  const Database = require('better-sqlite3');
  const file = new Database(process.argv[1]);
  file.exec('BEGIN EXCLUSIVE');
  console.log('held');
  setInterval(() => undefined, 1000);
`;
