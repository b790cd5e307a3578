import { joined, md, mentionOf, type Block, type Markdown, type MessageView } from '../discord/message-view.ts';
import { dateInWords, inListOrder, type HandOver, type Meet, type MeetShown } from './meet.ts';
import { buttons, privately, saysView, text } from './ring.view.ts';
import { inLetters, rings } from './ring-words.ts';

const MOST_LINES = 40;
const idOf = ({ id }: Meet): string[] => [String(id)];

/** "1 comes", "3 come". */
const comers = (count: number): string =>
  count === 0 ? 'Nobody is on the list yet' : count === 1 ? '1 comes' : `${count} come`;

const titleOf = ({ heldOn, state }: Meet): Markdown =>
  state === 'called-off'
    ? md`## Called off: swap meet on ${dateInWords(heldOn)}`
    : md`## Swap meet on ${dateInWords(heldOn)}`;

/** "Nell brings torch, zoanthid": who comes and with what. */
function guestsInWords({ guests }: Pick<MeetShown, 'guests'>): Markdown {
  const lines = guests.map(({ memberId, names }) =>
    names.length === 0 ? md`- ${mentionOf(memberId)}` : md`- ${mentionOf(memberId)} brings ${names.join(', ')}`,
  );
  const shown = lines.slice(0, MOST_LINES);
  return joined([...shown, ...(lines.length > shown.length ? [md`- and ${lines.length - shown.length} more`] : [])]);
}

/** The card in the channel. */
export function meetCardView(shown: Pick<MeetShown, 'meet' | 'guests'>): MessageView {
  const { meet, guests } = shown;
  const isOn = meet.state === 'planned';
  return {
    audience: 'everyone',
    tone: isOn ? 'calm' : 'plain',
    blocks: [
      text(titleOf(meet)),
      text(md`**Where:** ${meet.place}`),
      text(md`-# Planned by ${mentionOf(meet.byId)}`),
      ...(meet.state === 'called-off'
        ? []
        : [
            text(md`**${comers(guests.length)}**${meet.state === 'over' ? '. It is over.' : ''}`),
            ...(guests.length > 0 ? [text(guestsInWords(shown), 1)] : []),
          ]),
      ...(isOn
        ? [
            text(
              md`Press **I come**: your open offers are noted as what you bring, and what you look for counts by itself. The day before, I look for rings among those who come.`,
            ),
            buttons(
              { label: 'I come', act: 'frag-meet-come', args: idOf(meet), style: 'primary' },
              { label: 'I cannot', act: 'frag-meet-cannot', args: idOf(meet) },
              { label: 'Who gives what', act: 'frag-meet-list', args: idOf(meet) },
            ),
          ]
        : []),
    ],
  };
}

/** Who gives what to whom: what is promised, what waits for a yes, and what could be closed on the spot. */
export function handOverBlocks({ promised, asked, possible }: MeetShown): Block[] {
  const lines = (list: readonly HandOver[]) => {
    const all = inListOrder(list);
    const shown = all
      .slice(0, MOST_LINES)
      .map(({ from, to, name }) => md`- ${mentionOf(from)} → ${mentionOf(to)}: ${name}`);
    return joined([...shown, ...(all.length > shown.length ? [md`- and ${all.length - shown.length} more`] : [])]);
  };
  const served = possible.flat().length;
  return [
    ...(promised.length > 0 ? [text(joined([md`**Promised, to hand over:**`, lines(promised)]))] : []),
    ...(asked.length > 0 ? [text(joined([md`**Asked for, not all have said yes yet:**`, lines(asked)]), 1)] : []),
    ...(possible.length > 0
      ? [
          text(
            joined([
              md`**Could be closed on the spot** (${rings(possible.length)}, ${served} members):`,
              ...possible.map((ring) =>
                joined([
                  ring.length === 2 ? md`Between two:` : md`A ring of ${inLetters(ring.length)}:`,
                  joined(ring.map(({ from, to, name }) => md`- ${mentionOf(from)} → ${mentionOf(to)}: ${name}`)),
                ]),
              ),
            ]),
            2,
          ),
        ]
      : []),
    ...(promised.length + asked.length + possible.length === 0
      ? [text(md`Nothing is promised between those who come, and no ring can be closed among them yet.`)]
      : []),
  ];
}

const BRING = md`Bring a tub with a lid, tank water and a towel, and name each piece. Dip and hold what you take home: **/quarantine start** counts the days.`;

/** The next meet as whoever asks sees it. */
export function meetView(shown: MeetShown, picture: Block | null, memberId: string, mayCallOff: boolean): MessageView {
  const { meet, guests } = shown;
  const comes = guests.some((guest) => guest.memberId === memberId);
  return privately('calm', [
    text(titleOf(meet)),
    text(md`**Where:** ${meet.place}`),
    text(md`**${comers(guests.length)}**`),
    ...(guests.length > 0 ? [text(guestsInWords(shown), 3)] : []),
    ...handOverBlocks(shown),
    ...(picture ? [picture] : []),
    buttons(
      ...(comes
        ? [
            { label: 'What I bring', act: 'frag-meet-bring', args: idOf(meet) },
            { label: 'I cannot', act: 'frag-meet-cannot', args: idOf(meet) },
          ]
        : [{ label: 'I come', act: 'frag-meet-come', args: idOf(meet), style: 'primary' as const }]),
      ...(mayCallOff
        ? [{ label: 'Call it off', act: 'frag-meet-off', args: idOf(meet), style: 'danger' as const }]
        : []),
    ),
  ]);
}

/** The list of the day, in the channel. `hasPicture`: its picture goes along as a file. */
export function meetListView(shown: MeetShown, pictureAlt: string | null): MessageView {
  const { meet, guests } = shown;
  return {
    audience: 'everyone',
    tone: 'calm',
    blocks: [
      text(md`## Today: swap meet, ${meet.place}`),
      text(md`**${comers(guests.length)}**`),
      ...handOverBlocks(shown),
      ...(pictureAlt === null ? [] : [{ kind: 'photo', name: 'meet.png', alt: pictureAlt } satisfies Block]),
      text(BRING),
      text(
        md`-# **/frag meet** shows the list as it stands now. When a piece has changed hands, say so under **/frag promises**.`,
      ),
    ],
  };
}

/** The day before, to each who comes. */
export function meetReminderView(shown: MeetShown, memberId: string): MessageView {
  const { meet, guests, promised } = shown;
  const own = guests.find((guest) => guest.memberId === memberId);
  const mine = promised.filter(({ from, to }) => from === memberId || to === memberId);
  return privately('calm', [
    text(md`## Soon: swap meet on ${dateInWords(meet.heldOn)}`),
    text(joined([md`**Where:** ${meet.place}`, md`You bring: ${own?.names.join(', ') || 'nothing so far'}`])),
    ...(mine.length > 0
      ? [
          text(
            joined(
              mine.map(({ from, to, name }) =>
                from === memberId
                  ? md`- You give ${mentionOf(to)}: ${name}`
                  : md`- You get from ${mentionOf(from)}: ${name}`,
              ),
            ),
          ),
        ]
      : []),
    text(md`If a ring can be closed among those who come, I ask you in a message of its own. ${BRING}`),
    buttons({ label: 'I cannot', act: 'frag-meet-cannot', args: [...idOf(meet), meet.guildId] }),
    text(md`-# For ${mentionOf(memberId)}`),
  ]);
}

export const meetOffView = ({ heldOn, place }: Meet, memberId: string): MessageView =>
  privately('watch', [
    text(md`## The swap meet is called off`),
    text(
      md`${dateInWords(heldOn)}, ${place}. Promises between two members stand as they are: **/frag promises** shows yours.`,
    ),
    text(md`-# For ${mentionOf(memberId)}`),
  ]);

export const meetPlannedView = (meet: Meet): MessageView =>
  privately('calm', [
    text(md`## Planned: ${dateInWords(meet.heldOn)}`),
    text(md`**Where:** ${meet.place}. The card goes up in this channel. Those who come are reminded the day before.`),
    buttons(
      { label: 'I come', act: 'frag-meet-come', args: idOf(meet), style: 'primary' },
      { label: 'Call it off', act: 'frag-meet-off', args: idOf(meet), style: 'danger' },
    ),
  ]);

export const comingView = (meet: Meet, names: readonly string[], left: readonly string[]): MessageView =>
  privately('calm', [
    text(md`## You come on ${dateInWords(meet.heldOn)}`),
    text(
      names.length > 0
        ? md`You bring: **${names.join(', ')}**. What you look for counts by itself.`
        : md`You bring nothing so far; what you look for counts by itself. **/frag offer** adds a piece, and **What I bring** takes it along.`,
    ),
    ...(left.length > 0
      ? [text(md`Not taken along, because no open offer of yours has this number: ${left.join(', ')}`)]
      : []),
    buttons(
      { label: 'What I bring', act: 'frag-meet-bring', args: idOf(meet) },
      { label: 'I cannot', act: 'frag-meet-cannot', args: idOf(meet) },
    ),
  ]);

export const noMeetView = (): MessageView =>
  saysView(
    'No meet is planned',
    md`Plan one: **/frag meet date: Sat place: the club room**. I take who comes and what they bring, and look for rings among them.`,
  );
