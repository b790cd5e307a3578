import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { MIGRATIONS } from '../../../src/database/migrations.ts';
import { CannotOpen, openDatabase, openTemporaryDatabase } from '../../../src/database/open.ts';
import { dataFolder, withDatabase } from './folder.ts';

const shapeOf = (folder: string) =>
  withDatabase(folder, (db) => ({
    version: db.pragma('user_version', { simple: true }),
    schema: db.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY name').all(),
  }));

describe('openDatabase', () => {
  test('makes the folder and brings an empty database to its newest shape', () => {
    const folder = join(dataFolder(), 'not', 'there', 'yet');
    expect(shapeOf(folder).version).toBe(MIGRATIONS.length);
    expect(MIGRATIONS.length).toBeGreaterThan(0);
  });

  test('opened again it has the same shape and its rows', () => {
    const folder = dataFolder();
    const first = shapeOf(folder);
    withDatabase(folder, (db) => db.exec("INSERT INTO runs (version, started_at_ms) VALUES ('1.0.0', 5)"));
    expect(shapeOf(folder)).toEqual(first);
    expect(withDatabase(folder, (db) => db.prepare('SELECT version FROM runs').all())).toEqual([{ version: '1.0.0' }]);
  });

  test.each([1, 2, 3])('every commit is durable, on open number %d too', (opens) => {
    const folder = dataFolder();
    for (let open = 1; open < opens; open += 1) withDatabase(folder, () => undefined);
    const pragmas = withDatabase(folder, (db) =>
      ['synchronous', 'journal_mode', 'foreign_keys'].map((name) => db.pragma(name, { simple: true })),
    );
    expect(pragmas).toEqual([2, 'wal', 1]);
  });

  test('a database of a newer program is refused and left as it is', () => {
    const folder = dataFolder();
    withDatabase(folder, (db) => db.pragma(`user_version = ${MIGRATIONS.length + 1}`));
    expect(() => openDatabase(folder)).toThrow(CannotOpen);
    expect(() => openDatabase(folder)).toThrow(/newer program \(shape \d+, this one knows \d+\)\. Update the program/);
  });

  test('a folder that cannot be made is refused with what to do', () => {
    const file = join(dataFolder(), 'a-file');
    writeFileSync(file, '');
    expect(() => openDatabase(join(file, 'data'))).toThrow(CannotOpen);
    expect(() => openDatabase(join(file, 'data'))).toThrow(/DATA_DIR: the folder .* cannot be written/);
  });

  test('after a refusal nothing is held: once mended, the folder opens', () => {
    const folder = dataFolder();
    withDatabase(folder, () => undefined);
    const file = join(folder, 'reef-club.db');
    const whole = readFileSync(file);
    writeFileSync(file, 'no database at all '.repeat(500));
    expect(() => openDatabase(folder)).toThrow(CannotOpen);
    writeFileSync(file, whole);
    expect(shapeOf(folder).version).toBe(MIGRATIONS.length);
  });
});

describe('a damaged file', () => {
  const PAGE = 4096;
  const rowsIn = (folder: string) => withDatabase(folder, (db) => db.prepare('SELECT * FROM runs ORDER BY id').all());

  /** A closed database with three runs in it. */
  function closedDatabase(): { folder: string; file: string; rows: unknown[] } {
    const folder = dataFolder();
    withDatabase(folder, (db) => {
      for (const at of [1, 2, 3])
        db.prepare('INSERT INTO runs (version, started_at_ms) VALUES (?, ?)').run('1.0.0', at);
    });
    return { folder, file: join(folder, 'reef-club.db'), rows: rowsIn(folder) };
  }

  function flip(file: string, offset: number, count: number): void {
    const bytes = readFileSync(file);
    for (let at = offset; at < Math.min(bytes.length, offset + count); at += 1) bytes[at] = (bytes[at] ?? 0) ^ 0xff;
    writeFileSync(file, bytes);
  }

  test.each([
    ['its first bytes', 0],
    ['the header of its first page', 100],
    ['the header of its second page', PAGE],
  ])('%s turned is refused, with where to find the backup', (_where, offset) => {
    const { folder, file } = closedDatabase();
    flip(file, offset, 64);
    expect(() => openDatabase(folder)).toThrow(CannotOpen);
    expect(() => openDatabase(folder)).toThrow(/damaged.*[Rr]estore the last backup/s);
  });

  test('is either refused with the hint or read as it was, wherever the free middle of a page is turned', () => {
    const { folder, file, rows } = closedDatabase();
    const whole = readFileSync(file);
    expect(statSync(file).size).toBeGreaterThanOrEqual(2 * PAGE);
    for (let page = 0; page * PAGE < whole.length; page += 1) {
      writeFileSync(file, whole);
      flip(file, page * PAGE + PAGE / 2, 256);
      expect(readOrRefusal(folder)).toEqual(
        expect.toSatisfy((found: unknown) => found === 'refused' || same(found, rows)),
      );
    }
  });

  test.each([
    ['cut in the middle of its second page', (whole: Buffer) => whole.subarray(0, PAGE + 500)],
    ['cut after its first page', (whole: Buffer) => whole.subarray(0, PAGE)],
    ['of some other kind', () => Buffer.from('this is a letter and no database\n'.repeat(400))],
  ])('%s is refused, with where to find the backup', (_what, spoil) => {
    const { folder, file } = closedDatabase();
    writeFileSync(file, spoil(readFileSync(file)));
    expect(readOrRefusal(folder)).toBe('refused');
  });

  function readOrRefusal(folder: string): unknown {
    try {
      return rowsIn(folder);
    } catch (error) {
      expect(error).toBeInstanceOf(CannotOpen);
      expect(String(error)).toMatch(/[Rr]estore the last backup/);
      return 'refused';
    }
  }

  const same = (one: unknown, other: unknown) => JSON.stringify(one) === JSON.stringify(other);
});

describe('openTemporaryDatabase', () => {
  test('has the newest shape and leaves no file', () => {
    const { db, close } = openTemporaryDatabase();
    expect(db.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length);
    expect(db.memory).toBe(true);
    close();
    expect(db.open).toBe(false);
    expect(existsSync(':memory:')).toBe(false);
  });
});

describe('the migrations', () => {
  test('each can be applied after those before it, and tables check their types', () => {
    const { db, close } = openTemporaryDatabase();
    const tables = db
      .prepare("SELECT name, strict FROM pragma_table_list WHERE schema = 'main' AND type = 'table'")
      .all();
    const ours = (tables as { name: string; strict: number }[]).filter(({ name }) => !name.startsWith('sqlite_'));
    expect(ours.length).toBeGreaterThan(0);
    for (const { name, strict } of ours) expect(strict, name).toBe(1);
    close();
  });
});
