import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { openDatabase, type OpenDatabase } from '../../../src/database/open.ts';

/** A data folder that goes when the test ends. */
export function dataFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'reef-data-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Opens a folder, does something, closes it again. */
export function withDatabase<T>(folder: string, use: (db: OpenDatabase['db']) => T): T {
  const { db, close } = openDatabase(folder);
  try {
    return use(db);
  } finally {
    close();
  }
}
