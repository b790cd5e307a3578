import { z } from 'zod';
import { CommandBody } from './commands.ts';
import { nothing, ok, readBody, route } from './exchange.ts';
import type { Route, RouteDeps } from './exchange.ts';
import { commandPayload } from './payloads.ts';
import { missingAccess, Refusal } from './refusal.ts';

/** The registered commands, global and of the guild. */
export function commandRoutes({ world, contract }: RouteDeps): Route[] {
  const scope = (params: string[]): string | null => {
    if (params[0] !== world.applicationId) throw new Refusal(404, 10002, 'Unknown Application');
    const guildId = params[1] ?? null;
    if (guildId !== null && guildId !== world.guild.id) throw missingAccess();
    return guildId;
  };
  const places = [
    { path: '/applications/:a/commands', guild: false },
    { path: '/applications/:a/guilds/:g/commands', guild: true },
  ];
  return places.flatMap(({ path, guild }) => [
    route('GET', path, ({ params }) => ok(world.commands.list(scope(params)).map((one) => commandPayload(world, one)))),
    route('PUT', path, async ({ params, body }) => {
      const guildId = scope(params);
      await contract.check(guild ? 'guild-commands' : 'commands', body);
      const bodies = readBody(z.array(CommandBody), body);
      return ok(world.commands.replace(bodies, guildId).map((one) => commandPayload(world, one)));
    }),
    route('POST', path, async ({ params, body }) => {
      const guildId = scope(params);
      await contract.check(guild ? 'guild-commands' : 'commands', [body]);
      return { status: 201, body: commandPayload(world, world.commands.put(readBody(CommandBody, body), guildId)) };
    }),
    route('DELETE', `${path}/:c`, ({ params }) => {
      scope(guild ? params : params.slice(0, 1));
      if (!world.commands.remove(params.at(-1) ?? '')) throw new Refusal(404, 10063, 'Unknown application command');
      return nothing;
    }),
  ]);
}
