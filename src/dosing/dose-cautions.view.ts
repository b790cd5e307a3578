import { md, type Markdown } from '../discord/message-view.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import type { Parameter } from '../knowledge/parameter.ts';
import type { Reagent } from '../knowledge/reagent.ts';
import { span } from '../water/words.ts';

const line = (text: Markdown): Markdown => md`- ${text}`;

/** What travels with every answer that has somebody handle a reagent: people first, then the order, then the tank. */
export function doseCautions(
  base: Pick<KnowledgeBase, 'parameters'>,
  {
    parameter,
    reagent,
    practicalSalinity,
  }: { parameter: Parameter; reagent: Reagent; /** Null while nobody has said. */ practicalSalinity: number | null },
): Markdown[] {
  const { mind, apart } = parameter;
  const before = parameter.after.flatMap((id) => base.parameters.get(id) ?? []);
  const jump = parameter.more['ph-jump'];
  return [
    line(md`**You:** ${reagent.hazard} ${reagent.protect}`),
    line(md`**Dissolve:** ${reagent.making}`),
    ...before.map((first) => line(orderWords(first, practicalSalinity))),
    ...(apart
      ? [
          line(
            md`Never together with ${apart.from.join(' or ')}: keep ${span(apart.minutes)} minutes or more and another place between them. ${apart.why}`,
          ),
        ]
      : []),
    ...(jump && reagent.phEffect.startsWith('raises')
      ? [line(md`It pushes pH up: no single portion by more than ${jump.high}.`)]
      : []),
    ...(reagent.mind ? [line(md`${reagent.mind}`)] : []),
    ...mind.map((sentence) => line(md`${sentence}`)),
  ];
}

function orderWords({ id, name, target, unit }: Parameter, practicalSalinity: number | null): Markdown {
  if (id === 'salinity' && target && practicalSalinity === null)
    return md`Salinity comes first (${span(target)}): measure it, since this moves with it.`;
  if (id === 'salinity' && target && practicalSalinity !== null)
    return practicalSalinity >= target.low && practicalSalinity <= target.high
      ? md`Salinity comes first, and it is right: this moves with it.`
      : md`**Put salinity right first** (${span(target)}): this moves with it, and a dose may then be too much.`;
  return md`${name} comes first${target ? md` (${span(target)} ${unit})` : md``}: test it, and put it right before this.`;
}
