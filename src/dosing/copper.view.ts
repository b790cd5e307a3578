import type { CopperDose } from '../../shared/copper.ts';
import { stockFor } from '../../shared/stock.ts';
import { inFigures, shortly } from '../../shared/units/figures.ts';
import { inUnits } from '../calculators/units-in-words.ts';
import type { Worked } from '../calculators/worked.view.ts';
import { md, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { furtherFigure, type Parameter } from '../knowledge/parameter.ts';
import type { Tank, TankUnits } from '../tanks/tank.ts';
import { cannotView } from '../water/asked.view.ts';
import { fromWords } from '../water/standing.ts';
import { span } from '../water/words.ts';

type Found = Extract<CopperDose, { kind: 'copper' }>;
export type CopperAsked = {
  found: Found;
  volumeL: number;
  units: TankUnits;
  assumed: readonly Markdown[];
  stockGPerL: number | null;
  targetMgPerL: number;
  audience: Worked['audience'];
  ionic: Parameter;
};

const REAGENT = 'copper-sulfate-pentahydrate';
const mgPerL = (value: number) => `${inFigures(value, 2)} mg/L`;

export function copperView(base: KnowledgeBase, asked: CopperAsked): Worked | MessageView {
  const { found, volumeL, units, assumed, stockGPerL, targetMgPerL, audience, ionic } = asked;
  const { copperMg, massMg, additions, fromMgPerL } = found;
  const reagent = base.reagents.get(REAGENT);
  if (!reagent) throw new RangeError(`knowledge/reagents/${REAGENT}.yaml is missing`);
  const { formula, solubility } = reagent;
  const poured =
    stockGPerL === null ? null : stockFor({ formula, massG: massMg / 1000, stockGPerL, solubility, temperatureC: 20 });
  if (poured && poured.kind !== 'stock')
    return cannotView('That stock cannot be made', [
      md`${stockGPerL ?? 0} g/L is more than water takes up${poured.kind === 'will-not-dissolve' ? md`: about ${shortly(poured.mostGPerL, 2)} g/L` : md``}. Make it weak: copper is dosed by the drop, such as **stock: 10 g/L**.`,
    ]);
  const mL = poured ? poured.volumeMl : null;
  const whole = mL === null ? inUnits(massMg / 1000, 'mass', units) : inUnits(mL / 1000, 'dose-volume', units);
  const [first] = additions;
  const each =
    mL === null
      ? inUnits((first?.massMg ?? 0) / 1000, 'mass', units)
      : inUnits(mL / additions.length / 1000, 'dose-volume', units);
  const days = furtherFigure(ionic, 'days-to-level');
  const stop = ionic.urgentAbove;
  return {
    audience,
    tone: 'urgent',
    answer: md`${whole} ${mL === null ? 'copper sulfate pentahydrate' : 'of your copper sulfate stock'} in ${additions.length} ${additions.length === 1 ? 'addition' : 'additions'}`,
    first: [
      md`**Quarantine tank only, and a fish vet first.** ${reagent.mind ?? ''}`,
      ...(stop ? [md`**Stop at ${stop.low} mg/L or when fish gasp or lie down.** ${stop.note ?? ''}`] : []),
    ],
    days: [
      md`**${each} each time**, over ${span(days)} days. ${additions.map(({ reachesMgPerL }, at) => `${at + 1} → ${mgPerL(reachesMgPerL)}`).join(', ')}.`,
      md`Before every one: test. If the water is where the next step would bring it, leave that one out.`,
    ],
    assumed,
    byHand: [
      md`${shortly(targetMgPerL - fromMgPerL)} mg/L × ${shortly(volumeL, 4)} L = ${inFigures(copperMg, 3)} mg copper`,
      md`${inFigures(copperMg, 3)} mg ÷ 0.2545 mg in a mg of salt = ${inFigures(massMg, 3)} mg${mL === null ? md`` : md`, in ${inUnits(mL / 1000, 'dose-volume', units)} of ${stockGPerL ?? 0} g/L`}`,
    ],
    range: md`The sum is exact, the water is not: lime, carbon and resins take copper out, and evaporation concentrates it. **The test leads.**`,
    test: md`${ionic.testing}`,
    cautions: [
      md`- **You:** ${reagent.hazard} ${reagent.protect}`,
      md`- **Dissolve:** ${reagent.making}`,
      ...ionic.mind.map((sentence) => md`- ${sentence}`),
    ],
    from: md`${fromWords(base, 'Copper in the salt by the IUPAC 2021 atomic weights.', [ionic.target, days, stop])}`,
    buttons: reagent.firstAid
      .slice(0, 1)
      .map((row) => ({ label: 'First aid', act: 'aid', args: [row], style: 'danger' as const })),
  };
}

/** Bound copper: only the label of the product knows its dose, and the numbers of the forms must never meet. */
export const labelRulesView = ({ name, mind, testing }: Parameter): MessageView =>
  cannotView(`${name}: the label rules`, [
    md`I compute ionic copper only. What is in a bound product is known to its maker alone, so its label gives the dose, and its range.`,
    md`${testing}`,
    ...mind.map((sentence) => md`- ${sentence}`),
  ]);

export const formMissingView = (): MessageView =>
  cannotView('Which form of copper?', [
    md`Add **form:** ionic, chelated or amine. The right numbers of the forms differ tenfold, so without it I compute nothing.`,
  ]);

export const onlyQuarantineView = ({ name, purpose }: Tank): MessageView =>
  cannotView('Copper goes into a quarantine tank only', [
    md`**${name}** is kept as ${purpose === 'other' ? 'another kind of tank' : md`a ${purpose} tank`}. Copper kills corals, shrimps, snails and every other invertebrate, and rock gives it back for months.`,
    md`If it is a quarantine tank without invertebrates, rock and sand, say so with **/tank edit** and **purpose: quarantine**.`,
  ]);

export function noCopperView(
  ionic: Parameter,
  found: Extract<CopperDose, { kind: 'not-needed' | 'cannot-lower' }>,
  target: number,
): MessageView {
  return found.kind === 'not-needed'
    ? cannotView('Nothing to add', [md`It stands at ${mgPerL(found.fromMgPerL)} already. Test again tomorrow.`])
    : cannotView('No dose brings copper down', [
        md`It stands at ${mgPerL(found.fromMgPerL)}, and you want ${mgPerL(target)}.`,
        md`**What can:** ${ionic.lowering}`,
      ]);
}
