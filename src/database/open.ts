import Database from 'better-sqlite3';
import { accessSync, constants, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { lockFolder } from './lock.ts';
import { MIGRATIONS } from './migrations.ts';

export type OpenDatabase = { db: Database.Database; close: () => void };

const RESTORE = 'Restore the last backup; deploy/restore.sh shows how. Nothing was changed.';

/** A start-up mistake that the host can mend; its message says how. */
export class CannotOpen extends Error {}

/** So long a turn of the program waits for another process's lock, deaf to everything else meanwhile. */
const LOCK_WAIT_MS = 100;

/**
 * Opens `folder/reef-club.db`, brings its shape up to date and makes every commit durable.
 *
 * WAL with synchronous=FULL, set and checked after each open: the driver would otherwise fall back to a weaker
 * setting on every open but the first.
 *
 * @throws FolderInUse when another bot holds the folder, CannotOpen when the folder or file cannot be used.
 */
export function openDatabase(folder: string): OpenDatabase {
  usableFolder(folder);
  const lock = lockFolder(folder);
  try {
    const db = openWhole(join(folder, 'reef-club.db'));
    return {
      db,
      close: () => {
        db.close();
        lock.release();
      },
    };
  } catch (error) {
    lock.release();
    throw error;
  }
}

/** A database that lives as long as the process, for the practice room and for tests. */
export function openTemporaryDatabase(): OpenDatabase {
  const db = new Database(':memory:');
  migrate(db);
  return { db, close: () => void db.close() };
}

function openWhole(file: string): Database.Database {
  const db = new Database(file, { timeout: LOCK_WAIT_MS });
  try {
    prepare(db);
    return db;
  } catch (error) {
    db.close();
    const code = String(error instanceof Error ? Reflect.get(error, 'code') : '');
    if (!/^SQLITE_(NOTADB|CORRUPT)/.test(code)) throw error;
    throw new CannotOpen(`the database ${file} is damaged (${code}). ${RESTORE}`, { cause: error });
  }
}

function usableFolder(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true });
    accessSync(folder, constants.W_OK);
  } catch (error) {
    const user = typeof process.getuid === 'function' ? process.getuid() : 'the bot';
    throw new CannotOpen(
      `DATA_DIR: the folder ${folder} cannot be written by user ${user}. Make it writable, for example: chown -R ${user} ${folder}`,
      { cause: error },
    );
  }
}

function prepare(db: Database.Database): void {
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.pragma('foreign_keys = ON');
  const synchronous: unknown = db.pragma('synchronous', { simple: true });
  if (synchronous !== 2)
    throw new CannotOpen(`the database runs with synchronous=${String(synchronous)}, expected 2 (FULL)`);
  const check: unknown = db.pragma('quick_check(1)', { simple: true });
  if (check !== 'ok') throw new CannotOpen(`the database is damaged (${String(check)}). ${RESTORE}`);
  migrate(db);
}

/** Applies what is missing, in one transaction. A database of a newer program is refused. */
function migrate(db: Database.Database): void {
  const version = Number(db.pragma('user_version', { simple: true }));
  if (version > MIGRATIONS.length)
    throw new CannotOpen(
      `the database is of a newer program (shape ${version}, this one knows ${MIGRATIONS.length}). Update the program, or restore the backup made before the update.`,
    );
  db.transaction(() => {
    for (const statement of MIGRATIONS.slice(version)) db.exec(statement);
    db.pragma(`user_version = ${MIGRATIONS.length}`);
  }).immediate();
}
