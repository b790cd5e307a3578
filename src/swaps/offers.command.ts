import type { AnyCommand, ButtonAct, FormAct } from '../discord/command.ts';
import { draftButtons, draftForms } from './draft-buttons.command.ts';
import { keeperButtons, keeperCommands } from './keeper.command.ts';
import { offerCommand } from './offer.command.ts';
import type { OfferDeps } from './offering.command.ts';
import { wantButtons, wantCommand, wantForms } from './want.command.ts';

// Everything that offers and wants answer to.

export const offerCommands = (deps: OfferDeps): AnyCommand[] => [
  offerCommand(deps),
  wantCommand(deps),
  ...keeperCommands(deps),
];
export const offerButtons = (deps: OfferDeps): ButtonAct[] => [
  ...draftButtons(deps),
  ...keeperButtons(deps),
  ...wantButtons(deps),
];
export const offerForms = (deps: OfferDeps): FormAct[] => [...draftForms(deps), ...wantForms(deps)];
