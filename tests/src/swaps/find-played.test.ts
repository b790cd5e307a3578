import { describe, expect, test } from 'vitest';
import { createAbilities } from '../../../src/commands.ts';
import { openTemporaryDatabase } from '../../../src/database/open.ts';
import { blockStore } from '../../../src/promises/block.store.ts';
import { promiseStore } from '../../../src/promises/promise.store.ts';
import { asRead } from '../../../src/room/as-read.ts';
import type { ActResult, Actor } from '../../../src/room/room.ts';
import { offerStore } from '../../../src/swaps/offer.store.ts';
import type { Offer, OfferDetails } from '../../../src/swaps/offer.ts';
import { wantStore } from '../../../src/swaps/want.store.ts';
import { knowledge, openRoomWithBot } from '../../set-up-club.ts';
import { offerOf } from './find-stage.ts';

type Given = Readonly<Record<string, string>>;

/** A club in which Nell, Bo and Tom may offer, and Uma looks; listings are written as the form writes them. */
async function openSwaps() {
  const { db } = openTemporaryDatabase();
  const painted: string[] = [];
  const paint = (svg: string) => {
    painted.push(svg);
    return Promise.resolve(Buffer.from('89504e470d0a1a0a', 'hex'));
  };
  const { room } = await openRoomWithBot({}, { abilities: createAbilities(knowledge(), { db, paint }) });
  const offers = offerStore(db);
  const guildId = room.world.guild.id;
  const idOf = (who: Actor) => [...room.world.members.all()].find(({ name }) => name === who.name)?.id ?? '';
  const [nell, uma] = [room.actor('Nell'), room.actor('Uma')];
  const offers_ = (who: Actor, details: Partial<OfferDetails>, pieces = 2): Offer => {
    const { details: whole, channelId } = offerOf(details);
    const expiresAt = new Date(room.clock.now().getTime() + 40 * 86_400_000);
    return offers.add({ guildId, memberId: idOf(who), channelId, pieces, details: whole, expiresAt }, room.clock.now());
  };
  return { room, db, offers, guildId, idOf, nell, uma, offer: offers_, painted };
}

const read = ({ replies, error }: ActResult): string => {
  expect(error).toBeUndefined();
  const answers = replies.filter(({ private: isPrivate }) => isPrivate);
  expect(answers).toHaveLength(1);
  expect(replies).toHaveLength(1);
  return asRead(answers[0]?.text ?? '');
};
const asks = async (who: Actor, verb: string, given: Given = {}) =>
  read(await who.slash(`frag ${verb}`, Object.entries(given).map(([name, value]) => ({ name, value })))); // prettier-ignore
const presses = async (who: Actor, label: string) => read(await who.press(label));

describe('/frag find in the room', () => {
  test('lists what is there, five a page, and loses nothing while offers come and go', async () => {
    const { room, nell, uma, offer, offers, guildId } = await openSwaps();
    for (let at = 1; at <= 12; at += 1) offer(nell, { coral: 'euphyllia', name: `Torch ${at}`, area: 'old town' });
    const first = await asks(uma, 'find', { text: 'torch' });
    expect(first).toContain('12 offers: torch');
    expect(first).toContain('1 · Torch 12: 2 pieces, cut: not said\nby @Nell · old town · /frag look offer: 12');
    expect(first).not.toContain('Torch 7:');
    // Meanwhile one that was shown goes, one that is to come goes, and a new one comes.
    for (const id of [8, 6]) offers.save({ ...offers.find(id, guildId)!, state: 'withdrawn' }, room.clock.now());
    offer(nell, { coral: 'euphyllia', name: 'Torch 13' });
    const second = await presses(uma, 'More');
    expect(second).toContain('One that you saw has gone meanwhile');
    for (const at of [7, 5, 4, 3, 2]) expect(second).toContain(`Torch ${at}:`);
    const third = await presses(uma, 'More');
    expect(third).toContain('Torch 1:');
    expect(third).toMatch(/Came in while you looked[^]*Torch 13:/);
    expect(await presses(uma, 'Back')).toContain('Torch 5:');
    expect(await presses(uma, 'More')).toContain('Torch 13:');
    expect(await presses(uma, 'From the start')).toMatch(/1 · Torch 13:/);
  }, 60_000);

  test('shows one with its warnings and the way to promise it, and says kindly when it has gone', async () => {
    const { room, nell, uma, offer, offers, guildId } = await openSwaps();
    const { id } = offer(nell, { coral: 'zoanthus', name: 'Teal zoas', colour: 'teal' });
    await asks(uma, 'find', { text: 'tael' });
    const card = read(await uma.choose('Look at one', ['Teal zoas']));
    expect(card).toContain('Teal zoas: 2 pieces');
    expect(card).toContain('Poison');
    expect(await presses(uma, 'Back to the list')).toContain('1 offer: tael');
    offers.save({ ...offers.find(id, guildId)!, state: 'withdrawn' }, room.clock.now());
    expect(read(await uma.choose('Look at one', ['Teal zoas']))).toContain('That one has just gone');
  });

  test('says when all are promised, and leaves out members with a block between them', async () => {
    const { room, db, nell, uma, offer, idOf, guildId } = await openSwaps();
    const bo = room.actor('Bo');
    const torch = offer(nell, { coral: 'euphyllia', name: 'Torch' }, 1);
    offer(bo, { coral: 'euphyllia', name: 'Gold torch' });
    promiseStore(db).promise(torch, idOf(room.actor('Tom')), room.clock.now());
    expect(await asks(uma, 'find', { text: 'torch' })).toMatch(/1 · Gold torch[^]*All promised, queue open[^]*2 · Torch: promised/); // prettier-ignore
    blockStore(db).block(guildId, idOf(bo), idOf(uma), room.clock.now());
    expect(await asks(uma, 'find', { text: 'torch' })).not.toContain('Gold torch');
    expect(await asks(room.actor('Tom'), 'find', { text: 'torch' })).toContain('Gold torch');
  });

  test('says what comes near when nothing matches, and watches for it', async () => {
    const { db, nell, uma, offer, guildId, idOf } = await openSwaps();
    offer(nell, { coral: 'fimbriaphyllia', name: 'Hammer' });
    const said = await asks(uma, 'find', { text: 'torch' });
    expect(said).toContain('Nobody offers that now: torch');
    expect(said).toMatch(/Near to it: grows alike[^]*Hammer/);
    await presses(uma, 'Keep an eye out');
    expect(wantStore(db).own(guildId, idOf(uma))).toMatchObject([{ words: 'torch' }]);
  });

  test('offers names while somebody types', async () => {
    const { nell, uma, offer } = await openSwaps();
    offer(nell, { coral: 'euphyllia', name: 'Gold torch' });
    const { choices } = await uma.autocomplete('frag find', [{ name: 'text', value: 'tor' }]);
    expect(choices?.map(({ name }) => name)).toEqual(expect.arrayContaining(['Gold torch (on offer)', 'Torch coral']));
  });
});

describe('/frag beside in the room', () => {
  test('names colours, offers and kinds with their distance, and paints the colours', async () => {
    const { nell, uma, offer, painted } = await openSwaps();
    offer(nell, { coral: 'stylophora', name: 'Cat’s paw', colour: 'teal' });
    offer(nell, { coral: 'stylophora', name: 'Cherry paw', colour: 'red' });
    offer(nell, { coral: 'discosoma', name: 'Teal mushroom', colour: 'teal' });
    const { replies, error } = await uma.slash('frag beside', [
      { name: 'coral', value: 'acropora' },
      { name: 'colour', value: 'bleeding red' },
    ]);
    expect(error).toBeUndefined();
    const reply = replies.find(({ private: isPrivate, images }) => isPrivate && images.length > 0);
    const said = asRead(reply?.text ?? '');
    expect(said).toContain('Beside bleeding red Acropora');
    expect(said).toContain('teal (opposite)');
    expect(said).toMatch(/Cat’s paw, teal, by @Nell[^\n]*keep 7 cm apart, PAR 200 to 350/);
    expect(said).not.toContain('Cherry paw');
    expect(said).not.toContain('Teal mushroom');
    expect(said).toContain('blue light changes how every colour looks');
    expect(reply?.images[0]?.alt).toContain('Squares of bleeding red');
    expect(painted).toHaveLength(1);
  });

  test('goes by kind alone where no colour is known, and asks where no coral is', async () => {
    const { uma } = await openSwaps();
    expect(await asks(uma, 'beside', { coral: 'zoas', colour: 'octarine' })).toContain(
      'I know no colour in “octarine”',
    );
    expect(await asks(uma, 'beside', { coral: 'a brick' })).toContain('Which coral?');
  });
});
