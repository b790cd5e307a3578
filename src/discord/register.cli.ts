import { parseArgs } from 'node:util';
import { readConfig } from '../config.ts';
import { createAbilities } from '../commands.ts';
import { loadCompiledKnowledge } from '../knowledge/compiled.loader.ts';
import { createRest, loginProblem } from './client.ts';
import { definitionsOf } from './definitions.ts';
import { registerCommands, type RegistrationDiff, type Scope } from './register.ts';

const USAGE = `npm run register               write the commands that differ
npm run register -- --dry-run  only say what would change
npm run register -- --clean    also remove our commands from the other scope (with GUILD_ID: the global ones)`;

async function main(): Promise<number> {
  const { values } = parseArgs({
    options: { 'dry-run': { type: 'boolean' }, clean: { type: 'boolean' }, help: { type: 'boolean', short: 'h' } },
  });
  if (values.help) {
    console.log(USAGE);
    return 0;
  }
  const read = readConfig(process.env);
  if (!read.ok) {
    console.error(read.problems.join('\n'));
    return 78;
  }
  const { token, apiUrl, guildId } = read.config;
  if (!token) {
    console.error(
      'DISCORD_TOKEN is not set, so there is no bot to register commands for. Set it, or see deploy/example.env.',
    );
    return 78;
  }
  const rest = createRest(token, apiUrl);
  const dryRun = values['dry-run'] ?? false;
  try {
    const application = (await rest.get('/oauth2/applications/@me')) as { id: string };
    const abilities = createAbilities(loadCompiledKnowledge(new URL('./knowledge.json', import.meta.url)));
    const definitions = definitionsOf(abilities.all, abilities.entries);
    const scope: Scope = guildId ? { kind: 'guild', guildId } : { kind: 'global' };
    say(scope, await registerCommands(rest, application.id, definitions, scope, { dryRun }), dryRun);
    if (values.clean && guildId)
      say({ kind: 'global' }, await registerCommands(rest, application.id, [], { kind: 'global' }, { dryRun }), dryRun);
    return 0;
  } catch (error) {
    console.error(loginProblem(error, apiUrl).message);
    return 69;
  }
}

function say(scope: Scope, diff: RegistrationDiff, dryRun: boolean): void {
  const where = scope.kind === 'global' ? 'everywhere' : `in server ${scope.guildId}`;
  const lines = (['added', 'changed', 'removed', 'unchanged'] as const)
    .filter((kind) => diff[kind].length > 0)
    .map((kind) => `  ${kind}: ${diff[kind].map(nameAsUsed).join(', ')}`);
  console.log(
    [
      `Commands ${where}${dryRun ? ' (dry run, nothing written)' : ''}:`,
      ...(lines.length > 0 ? lines : ['  none']),
    ].join('\n'),
  );
}

/** Slash commands have no spaces in their names; entries of the message menu do. */
const nameAsUsed = (name: string) => (name.includes(' ') ? name : `/${name}`);

process.exitCode = await main();
