import type { Offer, SwapPromise } from './offer.ts';

/** What a keeper did to an offer of theirs and can take back. */
export const KEEPER_ACTS = ['edit', 'renew', 'withdraw'] as const;
export type KeeperAct = (typeof KEEPER_ACTS)[number];

// What became of each thing that a keeper asked for.

export type Posted = { kind: 'posted'; offer: Offer } | { kind: 'gone' } | { kind: 'too-many' };
export type Changed = { kind: 'changed'; offer: Offer } | { kind: 'gone' } | { kind: 'taken'; taken: number };
export type Renewed = { kind: 'renewed'; offer: Offer } | { kind: 'too-many' | 'too-late' | 'hidden' | 'withdrawn' };
export type Withdrawn =
  { kind: 'withdrawn'; offer: Offer; told: SwapPromise[] } | { kind: 'ask'; live: SwapPromise[] } | { kind: 'over' };
export type Undone =
  | { kind: 'undone'; offer: Offer; what: KeeperAct; live: SwapPromise[] }
  | { kind: 'nothing' | 'too-many' }
  | { kind: 'taken'; taken: number };
