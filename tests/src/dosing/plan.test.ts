import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import type { Block, MessageView, Request } from '../../../src/discord/message-view.ts';
import { createSolver, type Solver } from '../../../src/dosing/solver.ts';
import { knowledge, openRoomWithBot } from '../../set-up-club.ts';
import { solverStage, type SolverStage } from './solver-stage.ts';

let stage: SolverStage;
let solver: Solver;
beforeAll(async () => {
  stage = await solverStage();
  solver = stage.solver();
});
afterAll(async () => {
  await solver.close();
  stage.remove();
});

const REQUEST: Request = {
  memberId: '1',
  memberName: 'ana',
  guildId: '2',
  channelId: '3',
  locale: 'en-GB',
  now: new Date('2026-11-25T19:00:00Z'),
};

async function ask(options: Record<string, string>, by: Pick<Solver, 'forOneQuestion'> = solver): Promise<MessageView> {
  const command = createAbilities(knowledge(), { solver: by }).commands.get('dose plan');
  const parsed = command?.parse(options);
  if (!parsed?.ok) throw new Error(`refused: ${JSON.stringify(parsed)}`);
  const answer = parsed.run(REQUEST);
  if (!('kind' in answer)) return answer;
  if (answer.kind !== 'work') throw new Error(`answered with a ${answer.kind}`);
  return answer.work();
}
const textOf = ({ blocks }: MessageView) =>
  blocks.map((block: Block) => (block.kind === 'text' ? block.text.markdown : '')).join('\n');
const said = async (options: Record<string, string>) => textOf(await ask(options)).replaceAll('\\', '');

const ALL = { alkalinity: '7.2 to 8.5', calcium: '380 to 420', magnesium: '1250 to 1350', volume: '80 gal' };

describe('/dose plan', () => {
  test('leads with the grams and the days, and shows each day in order', async () => {
    const text = await said(ALL);
    // By hand: 302.8 L × 1.3 dKH × 0.356652 ÷ 11.904 meq/g = 11.8 g; 302.8 × 40 ÷ 272.6 = 44.4 g; 302.8 × 100 ÷ 119.6 = 253 g.
    expect(text).toMatch(
      /^## 253 g magnesium chloride hexahydrate, 11\.8 g sodium bicarbonate and 44 g calcium chloride dihydrate, over 2 days/,
    );
    expect(text).toMatch(
      /\*\*Day 1:\*\* 253 g magnesium chloride hexahydrate, then 5\.9 g sodium bicarbonate; wait 15 minutes; 22 g/,
    );
    expect(text).toMatch(
      /\*\*Day 2:\*\* 5\.9 g sodium bicarbonate; .* Then alkalinity 8\.5 dKH and calcium 420 mg\/L\./,
    );
    expect(text).toContain('80 US gal = 303 L');
    expect(text).toContain('the usual ones; you named none');
    expect(text).toContain('not an instruction');
  });

  test('says every hazard of what has to be weighed, and has first aid at hand', async () => {
    const view = await ask(ALL);
    for (const id of ['magnesium-chloride-hexahydrate', 'sodium-bicarbonate', 'calcium-chloride-dihydrate']) {
      const reagent = knowledge().reagents.get(id);
      expect(textOf(view)).toContain(reagent?.hazard);
      expect(textOf(view)).toContain(reagent?.protect);
    }
    const buttons = view.blocks.flatMap((block) => (block.kind === 'buttons' ? block.buttons : []));
    expect(buttons).toContainEqual({ label: 'First aid', act: 'aid', args: ['chem-salt'] });
    expect(buttons.map(({ act }) => act)).toContain('course-form');
  });

  test('says how far tests and volume put it off', async () => {
    const text = await said({ alkalinity: '7 to 8.5', volume: '200 L' });
    // By hand: 8.988 g; ± 0.3 dKH of 1.5 is 20 %, with 5 % of volume √(0.2² + 0.05²) = 20.6 %: 7.1 to 10.8 g.
    expect(text).toMatch(
      /alkalinity, test off by 0\.30 dKH: it may really take 7\.1 g to 10\.8 g sodium bicarbonate; you land at 8\.2 dKH to 8\.8 dKH/,
    );
    expect(await said({ alkalinity: '7 to 7.2', volume: '200 L' })).toMatch(/cannot tell this rise from none/);
  });

  test('pours what is dosed from a stock, and limewater by the litre', async () => {
    expect(await said({ alkalinity: '7 to 8', volume: '100 L', reagents: 'baking soda 60 g/L' })).toMatch(
      /^## 50 mL of your sodium bicarbonate stock, in one day/,
    );
    // By hand: 1.3213 g Ca(OH)2 in limewater of 20.3 mmol/L × 74.092 = 1.504 g/L are 0.88 L, half a litre a day at most.
    const text = await said({ alkalinity: '7 to 8', volume: '100 L', reagents: 'limewater' });
    expect(text).toMatch(/^## 878 mL clear limewater \(1\.3 g calcium hydroxide\), over 2 days/);
    expect(text).toMatch(/taken as 0\.5% of the water a day/);
    expect(text).toMatch(/calcium \+7\.15 mg\/L/);
    expect(text).toMatch(/It can blind an eye/);
  });

  test('fills in a target only where the value is low, and says so', async () => {
    const text = await said({ alkalinity: '6.5', calcium: '420', volume: '100 L' });
    expect(text).toMatch(/alkalinity target: 8\.0 dKH, the middle of what keepers aim for/);
    expect(text).toMatch(/calcium: not raised on purpose/);
  });

  test('warns of what is urgent and of a salinity to put right first', async () => {
    const view = await ask({ alkalinity: '4.5 to 8', salinity: '31', volume: '100 L' });
    expect(view.tone).toBe('watch');
    expect(textOf(view)).toMatch(/Put salinity right first/);
    expect(textOf(view)).toMatch(/urgently low/);
    expect(await said({ alkalinity: '8 to 13', volume: '100 L' })).toMatch(/target for alkalinity is too high/);
    // By hand: 3 dKH by limewater bring 3 × 7.147 = 21 mg/L calcium along.
    const carried = await said({ alkalinity: '7 to 10', calcium: '490', volume: '100 L', reagents: 'limewater' });
    expect(carried).toMatch(/Calcium ends too high\*\*, at 511 mg\/L/);
  });

  test('with everything in it, what can hurt somebody still stands near the top', async () => {
    const everything = {
      salinity: '30 to 35',
      alkalinity: '4 to 9',
      calcium: '300 to 440',
      magnesium: '900 to 1400',
      volume: '1234 L',
      reagents: 'sea salt, NaHCO3, Na2CO3, CaCl2, limewater, MgCl2.6H2O, epsom salt',
    };
    const view = await ask(everything);
    const kept = view.blocks.filter((block) => block.kind === 'text' && !block.fold);
    // Discord takes 4,000 characters, and nothing that counts may be cut.
    expect(textOf({ ...view, blocks: kept }).length).toBeLessThan(3_950);
    const text = textOf(view).replaceAll('\\', '');
    const top = text.slice(0, text.indexOf('**Days**'));
    for (const id of ['calcium-hydroxide', 'calcium-chloride-anhydrous', 'sodium-carbonate'])
      expect(top).toContain(knowledge().reagents.get(id)?.hazard);
    expect(top).toMatch(/Alkalinity is urgently low/);
    expect(top).toMatch(/\*\*Low:\*\* salinity \(under 33\.0 ppt\), magnesium/);
  });
});

describe('what /dose plan cannot do', () => {
  test.each([
    [{}, /What shall the plan raise/],
    [{ alkalinity: '7 to 8' }, /How much water/],
    [{ alkalinity: '9 to 8', volume: '100 L' }, /No dose brings a value down[\s\S]*Never add acid/],
    [{ alkalinity: '8 to 8', volume: '100 L' }, /Nothing to add/],
    [
      { alkalinity: '7 to 8', calcium: '400 to 420', volume: '100 L', reagents: 'baking soda' },
      /Nothing that you have raises \*\*calcium\*\*/,
    ],
    [
      { alkalinity: '7 to 8', calcium: '420 to 420', volume: '100 L', reagents: 'limewater' },
      /would end at 427 mg\/L instead of 420/,
    ],
    [{ alkalinity: '7 to 8', volume: '100 L', reagents: 'unicorn dust' }, /don’t know that reagent/],
    [{ alkalinity: '7 to 8', volume: '100 L', reagents: 'baking soda 300 g/L' }, /stock cannot be made/],
    [{ alkalinity: '7 to 88', calcium: 'banana', volume: '-3 L' }, /alkalinity[\s\S]*calcium[\s\S]*volume/],
    [{ alkalinity: 'x'.repeat(2_000), volume: '100 L' }, /I couldn’t use that/],
  ])('%j', async (options, expected) => {
    const view = await ask(options);
    expect(view.audience).toBe('member');
    expect(textOf(view)).toMatch(expected);
  });

  test('a solver that is not there is said, and nothing breaks', async () => {
    const broken = createSolver({ workerFile: '/nowhere/solver.js' });
    expect(textOf(await ask({ alkalinity: '7 to 8', volume: '100 L' }, broken))).toMatch(
      /could not work that out in time/,
    );
  });
});

test('a newcomer gets a plan in the room, and first aid from its button', async () => {
  const { room } = await openRoomWithBot({}, { abilities: createAbilities(knowledge(), { solver }) });
  const ana = room.actor('ana');
  const options = Object.entries(ALL).map(([name, value]) => ({ name, value }));
  const [reply] = (await ana.slash('dose plan', options)).replies;
  expect(reply?.text).toMatch(/over 2 days/);
  const [aid] = (await ana.press('First aid')).replies;
  expect(aid?.text).toMatch(/For an eye, rinse/);
});
