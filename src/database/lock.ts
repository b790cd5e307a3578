import Database from 'better-sqlite3';
import { join } from 'node:path';

/** Another bot holds the data folder. */
export class FolderInUse extends Error {}

/** A lock that nothing refers to would be collected, and its file closed, while the bot still runs. */
const held = new Set<Database.Database>();

/**
 * Holds the data folder for this process until `release`, or until the process ends however it ends.
 *
 * The lock is a transaction held open on a small file beside the database: the operating system lets go of it
 * when the process dies, so there is no stale lock to clear away, and the database itself stays readable for
 * backups.
 *
 * @throws FolderInUse when another process holds it.
 */
export function lockFolder(folder: string): { release: () => void } {
  const file = new Database(join(folder, 'in-use.lock'), { timeout: 0 });
  try {
    file.pragma('journal_mode = DELETE');
    file.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    file.close();
    if (error instanceof Error && /SQLITE_BUSY/.test(String(Reflect.get(error, 'code'))))
      throw new FolderInUse(
        `Another bot is running on the data folder ${folder}. Two would answer and remind twice, so this one stops. Stop the other one, or set DATA_DIR to another folder.`,
      );
    if (error instanceof Error && /SQLITE_(NOTADB|CORRUPT)/.test(String(Reflect.get(error, 'code'))))
      throw new FolderInUse(
        `The lock file in ${folder} is damaged. It holds nothing: make sure that no other bot runs, delete in-use.lock and start again.`,
      );
    throw error;
  }
  held.add(file);
  return {
    release: () => {
      held.delete(file);
      if (file.inTransaction) file.exec('ROLLBACK');
      file.close();
    },
  };
}
