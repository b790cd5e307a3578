import { problemLine } from '../calculators/quantity-problem.view.ts';
import { takenForGranted } from '../calculators/taken-for-granted.ts';
import { workedView } from '../calculators/worked.view.ts';
import { joined, md, type MessageView } from '../discord/message-view.ts';
import { cannotView } from './asked.view.ts';
import { CONVERTIBLES, type Conversion } from './conversion.ts';

/** How many stand in the heading; the rest follow below it. */
const IN_HEADING = 2;
const EXAMPLES = md`**8 dkh** · **1.0265 sg** · **80 gal** · **78 F** · **5 ppm NO3-N** · **0.03 ppm P**`;

/** An amount in all its units. */
export function convertView(conversion: Conversion): MessageView {
  switch (conversion.kind) {
    case 'converted': {
      const { what, read, sisters, byHand } = conversion;
      const notes = takenForGranted(read);
      const [written = read.understood] = read.understood.split(' = ');
      return workedView({
        audience: 'member',
        answer: md`${[written, ...sisters.slice(0, IN_HEADING)].join(' = ')}`,
        first: sisters.slice(IN_HEADING).length > 0 ? [md`Also ${sisters.slice(IN_HEADING).join(' · ')}`] : [],
        assumed: [md`${what.of}: ${read.understood}`, ...(notes === '' ? [] : [md`${notes}`])],
        byHand: byHand === null ? [] : [md`${byHand}`],
        from: md`${what.from}`,
      });
    }
    case 'of-what':
      return cannotView('Of what?', [
        md`That unit is used of several things: ${joined(
          conversion.what.map(({ of }) => md`**${of}**`),
          ', ',
        )}.`,
        md`Add **of:**, or write it with the number: **140 ppm CaCO3**, **5 ppm NO3-N**.`,
      ]);
    case 'no-unit':
      return cannotView('In which unit?', [md`A number alone says nothing. For example: ${EXAMPLES}`]);
    case 'unreadable': {
      const { outcome } = conversion;
      if (outcome.kind === 'read') return cannotView('In which unit?', [md`For example: ${EXAMPLES}`]);
      if (outcome.kind === 'out-of-range')
        return cannotView('I couldn’t use that', [problemLine({ name: 'amount', outcome })]);
      return cannotView('I couldn’t use that', [
        md`- **amount**: I read “${outcome.came}” and found no amount with a unit in it.`,
        md`For example: ${EXAMPLES}`,
        md`-# I know units of ${CONVERTIBLES.map(({ of }) => of).join(', ')}.`,
      ]);
    }
  }
}
