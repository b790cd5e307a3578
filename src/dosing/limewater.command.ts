import { z } from 'zod';
import { limewaterNeed } from '../../shared/limewater.ts';
import { keptAnswer } from '../calculators/kept-answer.ts';
import { outOfRangeView } from '../calculators/out-of-range.view.ts';
import { quantityOptions, quantityShape, readQuantities } from '../calculators/quantity-option.ts';
import { defineCommand, type AnyCommand } from '../discord/command.ts';
import { md } from '../discord/message-view.ts';
import { tankWater } from '../water/tank-water.ts';
import { OWNER_OPTIONS, OWNER_SHAPE, type DoseDeps } from './dose.command.ts';
import { limewaterView } from './limewater.view.ts';
import { suggestTank, whoseTank } from './whose-tank.ts';

const ASKED = {
  use: {
    description: 'Alkalinity the tank uses up in a day: "0.8 dkh"',
    required: true,
    quantity: 'alkalinity',
    most: 20,
    example: '0.8 dkh',
  },
  volume: {
    description: 'Net water: "300 L", "80 gal". Left out: that of the tank',
    required: false,
    quantity: 'volume',
    least: 1,
  },
  evaporation: {
    description: 'Water that evaporates in a day: "3 L". It sets the limit',
    required: false,
    quantity: 'volume',
    example: '3 L',
  },
  temperature: {
    description: 'Of the limewater: "22 C". Left out: 25 °C',
    required: false,
    quantity: 'temperature',
    least: 15,
    most: 30,
  },
  strength: {
    description: 'How saturated it still is: "90 %". Left out: 100 %',
    required: false,
    quantity: 'percent',
    least: 50,
  },
} as const;

/** `/dose limewater`. */
export const limewaterCommand = (deps: DoseDeps): AnyCommand =>
  defineCommand({
    name: 'dose limewater',
    description: 'Limewater that makes up for what corals use, and whether it evaporates enough',
    options: [...quantityOptions(ASKED), ...OWNER_OPTIONS],
    input: z.object({ ...quantityShape(ASKED), ...OWNER_SHAPE }),
    run: (given, request) => {
      const whose = whoseTank(deps, given, request);
      if (whose.kind === 'cannot') return whose.view;
      const { tank, units, forMember } = whose;
      const read = readQuantities(ASKED, given, units);
      if (read.kind === 'problem') return read.view;
      const { values } = read;
      const water = tankWater(deps.base, { volume: values.volume }, tank, units);
      if (water.volumeL === null) throw new RangeError('a tank or a volume was made sure of, and neither is there');
      const input = {
        volumeL: water.volumeL,
        useDkhPerDay: values.use.si,
        evaporationLPerDay: values.evaporation?.si,
        temperatureC: values.temperature?.si ?? 25,
        saturation: (values.strength?.si ?? 100) / 100,
      };
      const found = limewaterNeed(input);
      if (found.kind !== 'need') return outOfRangeView(found, units);
      const assumed = [
        ...read.echo,
        ...water.lines.volume,
        ...(values.temperature ? [] : [md`temperature of the limewater: 25 °C; you gave none`]),
        ...(values.strength ? [] : [md`strength: saturated and fresh; you gave none`]),
      ];
      const worked = limewaterView(
        deps.base,
        { ...input, units, assumed, audience: forMember ? 'everyone' : 'member' },
        found,
      );
      const title = `limewater${tank ? `, ${tank.name}` : ''}`;
      return keptAnswer(
        deps.answers,
        request,
        { ...worked, ...(forMember ? { forMember } : {}) },
        { title, doses: [] },
      );
    },
    suggest: (option, typed, request, so = {}) => (option === 'tank' ? suggestTank(deps, typed, request, so) : []),
  });
