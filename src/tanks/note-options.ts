import { z } from 'zod';
import type { OptionSpec } from '../discord/command.ts';

/** When it was; every note takes it. */
export const WHEN_OPTION: OptionSpec = {
  name: 'when',
  description: 'yesterday, 2 days ago, 3 h ago, 2026-11-20; otherwise now',
  required: false,
  mostCharacters: 60,
};
export const PARAMETER_OPTION: OptionSpec = {
  name: 'parameter',
  description: 'What was measured, such as alkalinity or nitrate',
  required: true,
  autocomplete: true,
  mostCharacters: 60,
};
/** An amount with its unit that may be left out. */
export const amountOption = (name: string, description: string): OptionSpec => ({
  name,
  description,
  required: false,
  mostCharacters: 100,
});
export const Text = z.string().max(100).optional();
