#!/bin/sh
# Copies the database while the bot runs, checks the copy, and keeps the newest 14.
#
#   sh deploy/backup.sh [FOLDER]      FOLDER: where copies go; default: backups inside the data folder
#
# DATA_DIR names the data folder, as for the bot: a relative one counts from the project folder, default data.
# Run it as the user that the bot runs as. Exit code 0: a checked copy was made. 1: none was made. 2: wrong use.
set -eu
umask 077
keep=14

case $#${1-} in
  0 | 1[!-]*) ;;
  *)
    echo 'Use: sh deploy/backup.sh [FOLDER]' >&2
    exit 2
    ;;
esac

here=$PWD
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
cd -- "$root"
data=${DATA_DIR:-data}
case $data in /*) ;; *) data=$root/$data ;; esac
folder=${1:-$data/backups}
case $folder in /*) ;; *) folder=$here/$folder ;; esac
name=reef-club-$(date -u +%Y%m%dT%H%M%SZ).db
partial=$folder/$name.$$.partial

# Before the folder is made: what is made here has to belong to the bot's user.
node - "$data" <<'JS'
const { existsSync, statSync } = require('node:fs');
const file = `${process.argv[2]}/reef-club.db`;
const fail = (message) => {
  console.error(message);
  process.exit(1);
};
if (!existsSync(file)) fail(`There is no database ${file}, or this user may not look there. Set DATA_DIR to the bot's data folder.`);
const { uid } = statSync(file);
if (uid !== process.getuid()) fail(`The database belongs to user ${uid}, and this is user ${process.getuid()}. Run this as that user, or the bot may lose access to its own files.`);
JS

mkdir -p -- "$folder"
trap 'rm -f -- "$partial" "$partial-journal" "$partial-wal" "$partial-shm"' EXIT
trap 'exit 1' HUP INT TERM

node - "$data/reef-club.db" "$partial" "$folder/$name" <<'JS'
const fs = require('node:fs');
const { dirname } = require('node:path');
const [, , source, partial, target] = process.argv;

const sync = (path) => {
  const handle = fs.openSync(path, 'r');
  fs.fsyncSync(handle);
  fs.closeSync(handle);
};

async function main() {
  const Database = require('better-sqlite3');
  const live = new Database(source, { fileMustExist: true });
  try {
    // All pages in one step: a backup in several steps starts anew whenever the bot writes between two.
    await live.backup(partial, { progress: () => 0x7fffffff });
  } finally {
    live.close();
  }
  const copy = new Database(partial, { fileMustExist: true });
  try {
    // One file without companions: it can be copied anywhere and stays whole.
    copy.pragma('journal_mode = DELETE');
    const found = copy.pragma('integrity_check', { simple: true });
    if (found !== 'ok') throw new Error(`the copy is damaged, and so is the database: ${found}`);
    if (copy.pragma('user_version', { simple: true }) < 1) throw new Error("the database holds no club's data");
  } finally {
    copy.close();
  }
  sync(partial);
  fs.renameSync(partial, target);
  sync(dirname(target));
  console.log(`${target} (${Math.ceil(fs.statSync(target).size / 1024)} KiB, checked)`);
}

main().catch((error) => {
  console.error(`No backup was made: ${error.message}`);
  if (error.code === 'MODULE_NOT_FOUND') console.error('Run npm ci in the project folder first.');
  process.exit(1);
});
JS

# Names sort by time. Only names of this exact form are ever removed, and never the one just made.
cd -- "$folder"
set -- reef-club-????????T??????Z.db
while [ $# -gt "$keep" ]; do
  [ "$1" = "$name" ] || rm -f -- "$1"
  shift
done
