import Database from 'better-sqlite3';
import { promiseStore } from '../../../src/promises/promise.store.ts';

// Members who press at the same time, as a program of their own: file, offer, when to begin, then the members.
const [file = '', offerId = '', at = '', ...members] = process.argv.slice(2);
const db = new Database(file, { timeout: 20_000 });
const promises = promiseStore(db);
while (Date.now() < Number(at));
for (const member of members) {
  const { kind } = promises.promise({ id: Number(offerId), guildId: 'club' }, member, new Date());
  process.stdout.write(`${member} ${kind}\n`);
}
db.close();
