import { z } from 'zod';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import type { WaterDeps } from './asked.ts';
import { CONVERTIBLES, convert } from './conversion.ts';
import { convertView } from './convert.view.ts';

const [FIRST, ...OTHERS] = CONVERTIBLES.map(({ of }) => of);
const OF: readonly [string, ...string[]] = [FIRST ?? '', ...OTHERS];

/** `/water convert`: an amount in every unit that keepers use of it. */
export function convertCommand({ unitsOf }: Pick<WaterDeps, 'unitsOf'>): AnyCommand {
  return defineCommand({
    name: 'water convert',
    description: 'An amount in all its units: 8 dkh, 1.0265 sg, 80 gal, 78 F, 5 ppm NO3-N',
    options: [
      { name: 'amount', description: 'The amount with its unit: "8 dkh", "1.0265 sg", "80 gal"', required: true },
      {
        name: 'of',
        description: 'What it is of, where the unit does not say: "140 ppm" of alkalinity',
        required: false,
        choices: OF,
      },
    ],
    input: z.object({ amount: z.string(), of: z.enum(OF).optional() }),
    run: ({ amount, of }, { guildId }) => convertView(convert(amount, of, unitsOf(guildId))),
  });
}
