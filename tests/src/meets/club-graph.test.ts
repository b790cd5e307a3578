import { describe, expect, test } from 'vitest';
import { clubGraph, weightOf, type ClubSwaps } from '../../../src/meets/club-graph.ts';
import { details, offerOf, wantOf } from './swap-club.ts';

const sameWords: ClubSwaps['fits'] = (want, offer) => offer.details.name.includes(want.words);
const none = { promises: [], blocked: new Set<string>(), leftOut: new Map<string, number>(), refused: new Set<string>(), resting: new Set<string>(), fits: sameWords }; // prettier-ignore
const graph = (more: Partial<ClubSwaps> & Pick<ClubSwaps, 'offers' | 'wants'>) => clubGraph({ ...none, ...more });
const two = {
  offers: [offerOf(1, 'nell', 'torch'), offerOf(2, 'bo', 'xenia')],
  wants: [wantOf(1, 'bo', 'torch'), wantOf(2, 'nell', 'xenia')],
};

describe('what a club could swap', () => {
  test('has an arc from who offers to who wants, never to oneself', () => {
    const { members, arcs } = graph({ ...two, wants: [...two.wants, wantOf(3, 'nell', 'torch')] });
    expect(arcs.map(({ from, to, offerId }) => [from, to, offerId])).toEqual([
      ['bo', 'nell', 2],
      ['nell', 'bo', 1],
    ]);
    expect(members).toEqual([
      { id: 'bo', weight: 1 },
      { id: 'nell', weight: 1 },
    ]);
  });

  test.each<[string, Partial<ClubSwaps>]>([
    ['no piece is left', { offers: [offerOf(1, 'nell', 'torch', { left: 0 })] }],
    ['it is withdrawn', { offers: [offerOf(1, 'nell', 'torch', { state: 'withdrawn' })] }],
    ['one has blocked the other', { blocked: new Set(['nell/bo', 'bo/nell']) }],
    ['it was refused not long ago', { refused: new Set(['1/bo']) }],
    ['the taker waits for it already', { promises: [{ offerId: 1, takerId: 'bo', state: 'queued' }] }],
    ['the giver is not to be asked', { resting: new Set(['nell']) }],
    ['the taker is not to be asked', { resting: new Set(['bo']) }],
    ['the giver does not come', { among: new Map([['bo', new Set<number>()]]) }],
    ['it is not brought along', { among: new Map([['bo', new Set<number>()], ['nell', new Set([9])]]) }], // prettier-ignore
    ['the taker does not come', { among: new Map([['nell', new Set([1])]]) }],
  ])('has none when %s', (_why, more) => {
    const base = { offers: [offerOf(1, 'nell', 'torch')], wants: [wantOf(1, 'bo', 'torch')] };
    expect(graph(base).arcs).toHaveLength(1);
    expect(graph({ ...base, ...more }).arcs).toEqual([]);
  });

  test('looks no more for what is promised already, but for the rest', () => {
    const offers = [offerOf(1, 'nell', 'torch', { left: 0 }), offerOf(2, 'uma', 'torch'), offerOf(3, 'uma', 'xenia')];
    const wants = [wantOf(1, 'bo', 'torch'), wantOf(2, 'bo', 'xenia')];
    const promises = [{ offerId: 1, takerId: 'bo', state: 'promised' as const }];
    expect(graph({ offers, wants, promises }).arcs.map(({ offerId }) => offerId)).toEqual([3]);
  });

  test('takes the best wanted of several offers between two, then the oldest', () => {
    const offers = [offerOf(3, 'nell', 'green xenia'), offerOf(2, 'nell', 'torch'), offerOf(1, 'nell', 'pink xenia')];
    const words = wantOf(1, 'bo', 'xenia');
    expect(graph({ offers, wants: [words] }).arcs).toMatchObject([{ offerId: 1, weight: 0.4 }]);
    const group = wantOf(2, 'bo', 'green', { group: 'soft' });
    expect(graph({ offers, wants: [words, group] }).arcs).toMatchObject([{ offerId: 3, weight: 0.6 }]);
    const exact = wantOf(3, 'bo', 'torch', { coral: 'torch' });
    expect(graph({ offers, wants: [exact, words, group] }).arcs).toMatchObject([{ offerId: 2, weight: 1 }]);
  });

  test('keeps who will not drive within their own area, as far as areas are known', () => {
    const area = (id: number, who: string, name: string, where: string | null) =>
      offerOf(id, who, name, { details: details(name, { area: where }) });
    const wants = [wantOf(1, 'bo', 'torch', { driveKm: 2 })];
    const km = (giver: string | null, taker: string | null) =>
      graph({ offers: [area(1, 'nell', 'torch', giver), area(2, 'bo', 'plug', taker)], wants }).arcs.map(
        (arc) => arc.km,
      );
    expect(km('Harbour  side', 'harbour side')).toEqual([0]);
    expect(km('Hill', 'Harbour side')).toEqual([]);
    expect(km('Hill', null)).toEqual([null]);
    expect(km(null, 'Hill')).toEqual([null]);
  });

  test('weighs those who were left out more, within bounds', () => {
    const { members } = graph({ ...two, leftOut: new Map([['bo', 2]]) });
    expect(members).toEqual([
      { id: 'bo', weight: 2 },
      { id: 'nell', weight: 1 },
    ]);
    expect(weightOf(1000)).toBeLessThanOrEqual(5);
  });

  test('is the same in whatever order offers and wants come', () => {
    const offers = [...two.offers, offerOf(3, 'uma', 'xenia'), offerOf(4, 'nell', 'torch')];
    const wants = [...two.wants, wantOf(3, 'uma', 'torch')];
    expect(graph({ offers: offers.toReversed(), wants: wants.toReversed() })).toEqual(graph({ offers, wants }));
  });
});
