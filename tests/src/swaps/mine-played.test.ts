import { describe, expect, test } from 'vitest';
import { cards, DAY_MS, direct, offers, openSwapClub, press, readOf, says } from './swap-room.ts';

describe('an offer nears its end', () => {
  test('one word before it, one at the end, through a restart; one press puts it up again', async () => {
    const club = await openSwapClub();
    const { nell, uma, pass } = club;
    await offers(nell, { coral: 'euphyllia', pieces: '2' });
    await pass(39 * DAY_MS);
    expect(direct(nell, /Still there/)).toEqual([]);
    await pass(2 * DAY_MS);
    await club.restart();
    await pass(DAY_MS);
    expect(direct(nell, /Still there\? Torch coral/)).toHaveLength(1);
    expect(direct(nell, /Still there/)[0]!.buttons.map(({ label }) => label)).toEqual(['Renew 45 days', 'Withdraw']);

    await pass(4 * DAY_MS);
    expect(direct(nell, /Torch coral has ended/)).toHaveLength(1);
    expect(cards(uma)[0]!.text).toContain('Torch coral: ended');
    expect(cards(uma)[0]!.buttons.map(({ label }) => label)).toEqual(['Keeper’s menu']);

    await pass(20 * DAY_MS);
    nell.goTo('dm');
    expect(await press(nell, 'Renew 45 days')).toContain('Renewed: Torch coral');
    expect(cards(uma)[0]!.text).toContain('Torch coral: 2 pieces');
    await pass(41 * DAY_MS);
    expect(direct(nell, /Still there/)).toHaveLength(2);
    expect(direct(nell, /has ended/)).toHaveLength(1);
  });

  test('renewed in time it does not end; renewed too late it stays ended', async () => {
    const { nell, uma, pass } = await openSwapClub();
    await offers(nell, { coral: 'euphyllia' });
    await offers(nell, { coral: 'zoanthus' });
    await pass(41 * DAY_MS);
    expect(await says(nell, 'renew', { offer: '1' })).toContain('Renewed: Torch coral');
    await pass(10 * DAY_MS);
    const [torch, zoas] = cards(uma);
    expect(torch!.text).toContain('1 piece');
    expect(zoas!.text).toContain('ended');
    expect(await says(nell, 'undo')).toContain('I took back the renewal');
    await pass(DAY_MS);
    expect(cards(uma)[0]!.text).toContain('ended');
    await pass(31 * DAY_MS);
    expect(await press(nell, 'Renew 45 days')).toContain('ended too long ago');
    expect(await says(nell, 'mine')).toContain('You offer nothing yet');
  });

  test('a piece that settles says so on its card, without anybody touching it', async () => {
    const { nell, uma, pass } = await openSwapClub();
    await offers(nell, { coral: 'euphyllia', cut: '2026-11-25', 'heals-in': '7' });
    expect(cards(uma)[0]!.text).toContain('Fresh: cut 25 Nov, settled from 2 Dec');
    await pass(2 * DAY_MS);
    expect(cards(uma)[0]!.text).toContain('Fresh');
    await pass(DAY_MS);
    expect(cards(uma)[0]!.text).toContain('Settled since 2 Dec');
  });

  test('whoever takes no direct messages hears of it at their next use', async () => {
    const { petra, uma, pass } = await openSwapClub();
    await offers(petra, { coral: 'euphyllia' });
    await pass(41 * DAY_MS);
    expect(direct(uma, /Still there/)).toEqual([]);
    const { replies } = await petra.slash('frag mine', []);
    expect(replies.map(({ text }) => text).join('\n')).toContain('Still there?');
  });
});

describe('a keeper', () => {
  test('changes an offer, takes that back, and nobody else does', async () => {
    const { nell, uma, bo } = await openSwapClub();
    await offers(nell, { coral: 'euphyllia', size: '2 cm' });
    expect(await says(nell, 'mine')).toContain('Torch coral (offer 1): 1 piece');
    await nell.choose('Open one of your offers', ['Torch coral']);
    await nell.press('Edit');
    expect(readOf(await nell.fill({ 'How big is a piece?': '3 cm' }))).toContain('Size: 3 cm');
    expect(cards(uma)[0]!.text).toContain('Size: 2 cm');
    expect(await press(nell, 'Save it')).toContain('Saved: Torch coral');
    expect(cards(uma)[0]!.text).toContain('Size: 3 cm');
    expect(await press(bo, 'Keeper’s menu')).toContain('That is its keeper’s menu');
    expect(await says(nell, 'undo')).toContain('I took back your change');
    expect(cards(uma)[0]!.text).toContain('Size: 2 cm');
    expect(await says(nell, 'undo')).toContain('nothing to take back');
  });

  test('withdraws with somebody waiting: is asked first, they are told, and undo gives it back to them', async () => {
    const { nell, uma } = await openSwapClub();
    await offers(nell, { coral: 'euphyllia' });
    await press(uma, 'I’d like one');
    expect(cards(uma)[0]!.text).toContain('Torch coral: promised');
    const asked = await says(nell, 'withdraw', { offer: '1' });
    expect(asked).toContain('@Uma was promised a piece');
    expect(asked).toContain('Nothing has changed yet');
    expect(cards(uma)[0]!.text).toContain('promised');
    expect(await press(nell, 'Withdraw it all the same')).toContain('One member who waited is told');
    expect(cards(uma)[0]!.text).toContain('Torch coral: withdrawn');
    const told = direct(uma, /Torch coral/).length;
    expect(told).toBeGreaterThan(0);
    expect(await press(nell, 'Undo')).toContain('Whoever waited has it back and is told');
    expect(cards(uma)[0]!.text).toContain('Torch coral: promised');
    expect(direct(uma, /Torch coral/).length).toBeGreaterThan(told);
    expect(await says(nell, 'mine')).toContain('Torch coral to @Uma: promised');
  });

  test('cannot have fewer pieces than were promised', async () => {
    const { nell, uma, bo } = await openSwapClub();
    await offers(nell, { coral: 'euphyllia', pieces: '3' });
    await press(uma, 'I’d like one');
    await press(bo, 'I’d like one');
    await says(nell, 'edit', { offer: '1' });
    await nell.fill({});
    await nell.choose('Change something else…', ['How many pieces']);
    await nell.fill({ 'How many pieces?': '1' });
    expect(await press(nell, 'Save it')).toContain('2 pieces are promised or handed over');
    expect(cards(uma)[0]!.text).toContain('1 of 3 pieces left');
  });
});
