#!/bin/sh
# Puts a backup in the place of the database. The bot has to be stopped; what was there is kept beside it.
#
#   sh deploy/restore.sh FILE
#
# DATA_DIR names the data folder, as for the bot: a relative one counts from the project folder, default data.
# Run it as the user that the bot runs as. Exit code 0: restored. 1: refused or failed. 2: wrong use.
set -eu
umask 077

case $#${1-} in
  1[!-]*) ;;
  *)
    echo 'Use: sh deploy/restore.sh FILE' >&2
    exit 2
    ;;
esac

here=$PWD
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd -- "$root"
data=${DATA_DIR:-data}
case $data in /*) ;; *) data=$root/$data ;; esac
file=$1
case $file in /*) ;; *) file=$here/$file ;; esac

# All in one process: it holds the bot's own lock from before the first look until the new file is in place.
exec node - "$data" "$file" <<'JS'
const fs = require('node:fs');
const { join } = require('node:path');
const [, , data, source] = process.argv;
const live = join(data, 'reef-club.db');
const incoming = join(data, 'reef-club.db.incoming');
let swapping = false;

const sizeOf = (path) => fs.statSync(path, { throwIfNoEntry: false })?.size ?? 0;
const remove = (...paths) => paths.forEach((path) => fs.rmSync(path, { force: true }));
const sync = (path) => {
  const handle = fs.openSync(path, 'r');
  fs.fsyncSync(handle);
  fs.closeSync(handle);
};

function look() {
  if (!fs.statSync(source, { throwIfNoEntry: false })?.isFile()) throw new Error(`there is no file ${source}`);
  if (fs.existsSync(live) && fs.realpathSync(live) === fs.realpathSync(source))
    throw new Error('this is the database itself, not a backup');
  if (sizeOf(`${source}-wal`) > 0)
    throw new Error(`${source}-wal lies beside it, so it was copied without backup.sh and may not be whole`);
  fs.mkdirSync(data, { recursive: true });
  const { uid } = fs.statSync(fs.existsSync(live) ? live : data);
  if (uid !== process.getuid())
    throw new Error(`the data belongs to user ${uid}, and this is user ${process.getuid()}; run this as that user, or the bot cannot open it`);
}

/** The lock that a running bot holds; SQLite lets go of it when a process dies. */
function lock(Database) {
  const file = new Database(join(data, 'in-use.lock'), { timeout: 0 });
  try {
    file.pragma('journal_mode = DELETE');
    file.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    file.close();
    if (/^SQLITE_BUSY/.test(error.code)) throw new Error(`the bot is running on ${data}; stop it first`);
    throw error;
  }
  return file;
}

/** Checks a private copy, so that looking at the backup never changes it. */
function bringIn(Database) {
  remove(incoming, `${incoming}-wal`, `${incoming}-shm`, `${incoming}-journal`);
  fs.copyFileSync(source, incoming);
  fs.chmodSync(incoming, 0o600);
  const copy = new Database(incoming, { fileMustExist: true });
  try {
    copy.pragma('journal_mode = DELETE');
    const found = copy.pragma('integrity_check', { simple: true });
    if (found !== 'ok') throw new Error(`the backup is damaged: ${found}`);
    const shape = copy.pragma('user_version', { simple: true });
    const tables = copy.prepare("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'runs'").pluck().get();
    if (shape < 1 || tables !== 1) throw new Error("this is a database, but not one of this bot's");
    const { runs, latest } = copy.prepare('SELECT count(*) AS runs, max(started_at_ms) AS latest FROM runs').get();
    return `shape ${shape}, ${runs} runs, the last from ${latest === null ? 'never' : new Date(latest).toISOString()}`;
  } finally {
    copy.close();
    sync(incoming);
  }
}

/** Keeps what is there, with what only its -wal file holds. */
function keepAside(Database) {
  if (!fs.existsSync(live)) return undefined;
  const stamp = new Date().toISOString().replace(/[-:]|\.\d+/g, '');
  let aside = join(data, `reef-club.before-restore-${stamp}.db`);
  for (let n = 2; fs.existsSync(aside); n += 1) aside = join(data, `reef-club.before-restore-${stamp}-${n}.db`);
  fs.copyFileSync(live, aside, fs.constants.COPYFILE_EXCL);
  fs.chmodSync(aside, 0o600);
  for (const end of ['-wal', '-journal']) if (sizeOf(live + end) > 0) fs.copyFileSync(live + end, aside + end);
  try {
    const old = new Database(aside, { fileMustExist: true });
    try {
      old.pragma('journal_mode = DELETE');
    } finally {
      old.close();
    }
  } catch {
    console.error('The database that was there cannot be opened. It is kept as it is.');
  }
  for (const end of ['', '-wal', '-journal']) if (fs.existsSync(aside + end)) sync(aside + end);
  sync(data);
  return aside;
}

function main() {
  const Database = require('better-sqlite3');
  look();
  const held = lock(Database);
  try {
    const what = bringIn(Database);
    const aside = keepAside(Database);
    // A -wal file left from the old database would be played into the new one.
    swapping = true;
    remove(`${live}-wal`, `${live}-shm`, `${live}-journal`);
    fs.renameSync(incoming, live);
    sync(data);
    console.log(`Restored ${source}\ninto ${live} (${what}).`);
    if (aside) console.log(`What was there is kept as ${aside}`);
  } finally {
    remove(incoming, `${incoming}-wal`, `${incoming}-shm`, `${incoming}-journal`);
    held.exec('ROLLBACK');
    held.close();
  }
}

try {
  main();
} catch (error) {
  console.error(`Not restored: ${error.message}.`);
  if (error.code === 'MODULE_NOT_FOUND') console.error('Run npm ci in the project folder first.');
  console.error(swapping ? 'Run this again; the old database is kept beside it.' : 'The database was not touched.');
  process.exit(1);
}
JS
