import type { NetVolume } from '../../shared/net-volume.ts';
import { shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import { workedView } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { TankUnits } from '../tanks/tank.ts';
import { known, parameterOf } from './known.ts';
import { fromWords } from './standing.ts';
import { span } from './words.ts';

export type VolumeFound = {
  found: NetVolume;
  units: TankUnits;
  assumed: readonly Markdown[];
  /** "118 × 48 × 45 cm ÷ 1000". */
  geometry: string;
  /** Rock and sand were given; without any, the answer says so. */
  hasDisplacement: boolean;
};

/** Net water of a tank, and how far it may be off. */
export function volumeView(base: KnowledgeBase, answer: VolumeFound): MessageView {
  const { found, units, assumed, geometry, hasDisplacement } = answer;
  const { grossL, displacedL, sumpL, netL, errorL } = found;
  const say = (litres: number) => inUnits(litres, 'volume', units);
  const share = known(base, 'net-volume', 'net-of-nominal');
  const other = units.volume === 'L' ? inUnits(netL, 'volume', { ...units, volume: 'US gal' }) : `${shortly(netL)} L`;
  return workedView({
    audience: 'member',
    answer: md`${say(netL)} of water (${other})`,
    first: hasDisplacement
      ? []
      : [
          md`You gave no rock and no sand. With them it is less: often ${span(share)}% of a full tank. Add **rock:** and **sand:**.`,
        ],
    assumed,
    byHand: [
      md`${geometry} = ${shortly(grossL, 4)} L in the glass`,
      ...(displacedL > 0 || sumpL > 0
        ? [
            md`${shortly(grossL, 4)} − ${shortly(displacedL)} (rock and sand) + ${shortly(sumpL)} (sump) = ${shortly(netL, 4)} L`,
          ]
        : []),
    ],
    range: md`${say(netL - errorL)} to ${say(netL + errorL)}: about ±${shortly((100 * errorL) / netL, 2)}% from the tape${hasDisplacement ? md` and from how dense the rock is` : md``}. Pumps and pipes are not in it.`,
    test: md`${parameterOf(base, 'net-volume').testing} **/tank add** keeps the number for next time.`,
    cautions: parameterOf(base, 'net-volume').mind.map((sentence) => md`- ${sentence}`),
    from: md`${fromWords(base, 'Geometry.', [share, known(base, 'net-volume', 'rock-density')])}`,
  });
}
