import { md, type FormField, type FormView, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { Quarantine } from './quarantine.ts';
import type { ReadLabel } from './start-words.ts';
import { text } from './state-words.ts';

/** What has to be known before the clock starts and is not. */
export type Missing = { label: boolean; zone: boolean };

const LABEL_FIELDS: readonly FormField[] = [
  {
    kind: 'choice',
    name: 'form',
    label: 'Which kind of copper?',
    description: 'It stands on the label',
    required: true,
    options: [
      { label: 'Chelated', value: 'chelated' },
      { label: 'Amine', value: 'amine' },
    ],
  },
  {
    kind: 'line',
    name: 'label',
    label: 'Lowest and highest copper on the label',
    description: 'From your own bottle. Without it there is no range and no clock',
    required: true,
    mostCharacters: 60,
    placeholder: '1.5-2.0 mg/L',
  },
];

const ZONE_FIELDS = ({ timeOfDay }: Quarantine): FormField[] => [
  {
    kind: 'line',
    name: 'zone',
    label: 'Your time zone',
    description: 'A region and a city near you, such as Europe/Lisbon. I ask once and remember it',
    required: true,
    mostCharacters: 60,
    placeholder: 'Europe/Lisbon',
  },
  {
    kind: 'line',
    name: 'time',
    label: 'When shall I remind you each day?',
    description: 'Such as 19:30 or 7:30 pm',
    required: true,
    mostCharacters: 12,
    value: timeOfDay,
  },
];

/** Asks once for what is missing, and for nothing else. */
export const missingForm = (quarantine: Quarantine, { label, zone }: Missing): FormView => ({
  kind: 'form',
  act: 'quarantine-begin',
  args: [String(quarantine.id)],
  title: label ? 'Before it starts' : 'One thing before it starts',
  fields: [...(label ? LABEL_FIELDS : []), ...(zone ? ZONE_FIELDS(quarantine) : [])],
});

/** What could not be read, with a way back to the form; nothing that was given before is lost. */
export const tryAgainView = ({ id }: Quarantine, title: string, says: Markdown): MessageView => ({
  audience: 'member',
  tone: 'watch',
  blocks: [
    text(md`## ${title}`),
    text(md`${says} It has not started, and everything else is kept.`),
    {
      kind: 'buttons',
      buttons: [{ label: 'Try again', act: 'quarantine-start', args: [String(id)], style: 'primary' }],
    },
  ],
});

/** A label that says nothing, or something that cannot be. */
export const labelTroubleView = (
  trouble: Extract<ReadLabel, { kind: 'trouble' }>,
  quarantine: Quarantine,
): MessageView => tryAgainView(quarantine, 'I could not use that label', labelTrouble(trouble));

export function labelTrouble({ why, came }: Extract<ReadLabel, { kind: 'trouble' }>): Markdown {
  const example = md`For example: **chelated 1.5-2.0 mg/L**.`;
  switch (why) {
    case 'form':
      return md`I read “${came}”. Say which kind it is: chelated or amine. ${example}`;
    case 'ionic':
      return md`I read “${came}”. Ionic copper has a plan of its own, **Copper, ionic**. This one is for chelated or amine copper.`;
    case 'range':
      return md`I read “${came}”. I need the lowest and the highest figure. ${example}`;
    case 'figures':
      return md`I read “${came}”. Both figures are copper in mg/L, between 0.05 and 5. ${example}`;
    case 'order':
      return md`I read “${came}”. The lowest comes first, then the highest. ${example}`;
  }
}
