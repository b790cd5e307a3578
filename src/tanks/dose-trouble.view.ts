import { inUnits } from '../calculators/units-in-words.ts';
import { md, type MessageView } from '../discord/message-view.ts';
import { privately } from './privately.ts';
import type { Tank } from './tank.ts';

const UNCHANGED = md`Nothing was changed.`;

export const unknownDoseView = (typed: string): MessageView =>
  privately(md`I don’t know what was dosed`, [
    md`I read “${typed.slice(0, 60).toWellFormed()}”. Choose a reagent from the list while you type, such as **baking soda**.`,
    md`Was it something ready-made? Then say what it raised, and by how much: **what: alkalinity**, **amount: 0.5 dKH**.`,
    UNCHANGED,
  ]);

export const strengthMissingView = (understood: string): MessageView =>
  privately(md`How strong is the solution?`, [
    md`I read ${understood}. Add **strength:**, the grams in one litre of it, such as **80 g/L**. Or give **amount:** in grams.`,
    UNCHANGED,
  ]);

export const changeTooLargeView = (understood: string, { name, netVolumeL, units }: Tank): MessageView =>
  privately(md`That is more water than there is`, [
    md`I read ${understood}, and **${name}** holds ${inUnits(netVolumeL, 'volume', units)}. For example: **10 %** or **30 L**.`,
    UNCHANGED,
  ]);
