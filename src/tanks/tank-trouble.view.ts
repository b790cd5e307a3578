import { quantityProblemView } from '../calculators/quantity-problem.view.ts';
import { outOfRangeView } from '../calculators/out-of-range.view.ts';
import { joined, md, mentionOf, type Markdown, type MessageView } from '../discord/message-view.ts';
import type { NamedParameter } from './measured.ts';
import { privately } from './privately.ts';
import { moment } from './reading-words.ts';
import { MOST_TANKS, type Tank, type TankUnits } from './tank.ts';
import { MOST_NAME } from './tank-name.ts';
import type { ChosenTank } from './tank-option.ts';
import { LENGTHS_OF, type TankSize } from './tank-size.ts';
import type { When } from './when.ts';

const UNCHANGED = md`Nothing was changed.`;
const shown = (text: string): string => (text.length > 60 ? `${text.slice(0, 59).toWellFormed()}…` : text);
const named = (tanks: readonly Tank[]): Markdown =>
  joined(
    tanks.map(({ name }) => md`**${name}**`),
    ', ',
  );

export const needsAClubView = (): MessageView =>
  privately(md`Tanks belong to a club`, [
    md`I keep a tank in the club where you tell me of it, so that you decide who there may see it. Use this in a channel of your club’s server; only you see my answer.`,
  ]);

/** Which tank is meant cannot be told. `owner`: it is somebody else’s, and only what they share is spoken of. */
export function whichTankView(
  chosen: Exclude<ChosenTank, { kind: 'tank' }>,
  owner: { id: string } | null,
): MessageView {
  switch (chosen.kind) {
    case 'no-tanks':
      return owner
        ? privately(md`Nothing to see`, [
            md`${mentionOf(owner.id)} shows no tank to the club. Only they can change that, with **/tank edit** and **seen-by: club**.`,
          ])
        : privately(md`You have no tank here yet`, [
            md`Begin with **/tank add**: a name, and how much water is in it. For example **name: Reef**, **volume: 300 L**.`,
          ]);
    case 'which':
      return privately(md`Which tank?`, [md`Add **tank:** with one of these: ${named(chosen.tanks)}.`]);
    case 'unknown':
      return privately(md`I don’t know that tank`, [
        md`I read “${shown(chosen.typed)}”. ${owner ? md`What ${mentionOf(owner.id)} shows` : md`You have`}: ${named(chosen.tanks)}.`,
      ]);
  }
}

export const badNameView = (typed: string): MessageView =>
  privately(md`That name does not work`, [
    md`I read “${shown(typed)}”. A name has 1 to ${MOST_NAME} characters on one line, at least one of them to be seen. For example: **Reef**.`,
    UNCHANGED,
  ]);

export const nameTakenView = (name: string): MessageView =>
  privately(md`You have a tank of that name`, [
    md`**${name}** is taken; large and small letters count as the same. Choose another name, or rename the other tank with **/tank edit**.`,
    UNCHANGED,
  ]);

export const tooManyTanksView = (): MessageView =>
  privately(md`You have ${MOST_TANKS} tanks here`, [
    md`That is as many as I keep for one member. Remove one with **/tank remove** first.`,
    UNCHANGED,
  ]);

export const volumeMissingView = (): MessageView =>
  privately(md`How much water is in it?`, [
    md`Give **volume:**, the water without rock and sand, such as **300 L** or **80 US gal**.`,
    md`Do you not know it? Give **shape:** and **size:**, the inner lengths up to the water, such as **box** and **120 x 60 x 55 cm**. **/water volume** works it out better.`,
    UNCHANGED,
  ]);

export const twoVolumesView = (): MessageView =>
  privately(md`Volume or size, not both`, [
    md`Give either **volume:** or **shape:** with **size:**, so that I know which counts.`,
    UNCHANGED,
  ]);

export function sizeTroubleView(size: Exclude<TankSize, { kind: 'size' }>, units: TankUnits): MessageView {
  switch (size.kind) {
    case 'unreadable':
      return quantityProblemView([{ name: 'size', outcome: size.outcome }]);
    case 'out-of-range':
      return outOfRangeView(size, units);
    case 'wrong-count': {
      const wanted = LENGTHS_OF[size.shape];
      return privately(md`A ${size.shape} has ${wanted.length} lengths`, [
        md`I counted ${size.given}. In this order: ${wanted.join(', ')}. For example: **${EXAMPLES[wanted.length] ?? ''}**.`,
        UNCHANGED,
      ]);
    }
  }
}
const EXAMPLES: Readonly<Record<number, string>> = {
  2: '50 x 45 cm',
  3: '120 x 60 x 55 cm',
  4: '120 x 50 x 12 x 55 cm',
};

export function parameterTroubleView(found: Exclude<NamedParameter, { kind: 'parameter' }>): MessageView {
  switch (found.kind) {
    case 'unknown':
      return privately(md`I don’t know what “${shown(found.typed)}” is`, [
        md`Choose from the list while you type, such as **alkalinity**, **calcium** or **nitrate**.`,
        UNCHANGED,
      ]);
    case 'which':
      return privately(md`Which form?`, [
        md`The forms differ tenfold and must never be mixed up. Look at your kit and the label, then choose: ${joined(
          found.parameters.map(({ name, id }) => md`**${id}** (${name})`),
          ', ',
        )}.`,
        UNCHANGED,
      ]);
    case 'not-measured':
      return privately(md`No test shows ${found.parameter.name.toLowerCase()} itself`, [
        found.parameter.id === 'ammonia'
          ? md`Kits read all ammonia together. **/water ammonia** works out the part that poisons.`
          : md`**/water** works with it.`,
        UNCHANGED,
      ]);
  }
}

export const quarantineOnlyView = (name: string, tank: Tank): MessageView =>
  privately(md`${name} belongs into a quarantine tank`, [
    md`**${tank.name}** is kept as ${tank.purpose}. If it is a quarantine tank without any invertebrate, say so with **/tank edit** and **purpose: quarantine**.`,
    UNCHANGED,
  ]);

export function whenTroubleView(when: Exclude<When, { kind: 'at' }>, typed: string): MessageView {
  const how = md`For example: **yesterday**, **2 days ago**, **3 h ago**, **2026-11-20** or **2026-11-20 18:30** (that is UTC). Left out, it is now.`;
  switch (when.kind) {
    case 'unreadable':
      return privately(md`I could not read when`, [md`I read “${shown(typed)}”.`, how, UNCHANGED]);
    case 'ahead':
      return privately(md`That has not come yet`, [
        md`I read “${shown(typed)}” as ${moment(when.at)}.`,
        how,
        UNCHANGED,
      ]);
    case 'long-ago':
      return privately(md`That is too long ago`, [md`I read “${shown(typed)}”.`, how, UNCHANGED]);
  }
}

export const notYoursView = (): MessageView =>
  privately(md`Only its owner can do that`, [md`This tank is somebody else’s, so nothing was changed.`]);

export const goneView = (): MessageView =>
  privately(md`That is not there any more`, [
    md`The tank or the entry has been removed, or is not shown to you. **/tank list** shows what there is.`,
  ]);
