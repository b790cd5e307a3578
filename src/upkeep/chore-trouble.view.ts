import { joined, md, type MessageView } from '../discord/message-view.ts';
import type { Chore } from './chore-rule.ts';
import { cut, day, says } from './chore.view.ts';
import { MOST_CHORES } from './chore-said.view.ts';

export const needsAClubView = (): MessageView =>
  says([md`**Chores belong to a club.** Use this in a channel of your club’s server; only you see my answer.`]);

export const choreGoneView = (): MessageView =>
  says([md`**This is not your chore, or it was removed.** **/upkeep list** shows yours.`]);

export const answeredAlreadyView = (chore: Chore): MessageView =>
  says([
    md`**That round has its answer already.** Nothing was counted twice; **${chore.title}** is due ${day(chore, chore.due)}.`,
  ]);

export const whichChoreView = (typed: string, chores: readonly Chore[]): MessageView =>
  says([
    chores.length === 0
      ? md`**You have no chores here yet.** Begin with **/upkeep add** or **/upkeep ideas**.`
      : md`**I don’t know the chore “${cut(typed, 60)}”.** You have: ${joined(
          chores.map(({ title }) => md`**${title}**`),
          ', ',
        )}.`,
  ]);

export const badEveryView = (typed: string): MessageView =>
  says([
    md`**I could not read “${cut(typed, 60)}”.** Write how often like **30 days**, **2 weeks**, **month**, **Sat** or **Mon and Thu**, up to 366 days. Nothing was changed.`,
  ]);

export const badTimeView = (typed: string): MessageView =>
  says([md`**I could not read the time “${cut(typed, 40)}”.** Write it like 19:30 or 7:30 pm. Nothing was changed.`]);

export const badZoneView = (typed: string): MessageView =>
  says([
    md`**I know no time zone “${cut(typed, 60)}”.** Write a region and a city, such as Europe/Lisbon or America/Chicago. Nothing was changed.`,
  ]);

export const badDayView = (typed: string): MessageView =>
  says([
    md`**I could not read the day “${cut(typed, 60)}”.** Write **today**, **tomorrow**, **in 5 days**, **Sat** or a date such as 2026-12-01 that is not over. Nothing was changed.`,
  ]);

export const badDoneView = (typed: string): MessageView =>
  says([
    md`**I could not read “${cut(typed, 60)}” as a time that is over.** Write **yesterday**, **2 days ago** or a date such as 2026-11-20. Nothing was changed.`,
  ]);

export const timeOverView = (): MessageView =>
  says([md`**That moment is over.** Choose one that is ahead. Nothing was changed.`]);

export const badTitleView = (): MessageView =>
  says([md`**A chore needs a name of 1 to 60 characters,** such as **Clean the skimmer cup**. Nothing was changed.`]);

export const tooManyView = (): MessageView =>
  says([md`**You have ${MOST_CHORES} chores here.** Remove one with **/upkeep remove** first.`]);

export const twiceView = (title: string): MessageView =>
  says([
    md`**${title}** is on your list already. **/upkeep edit** changes it; give this one another name if it is another job.`,
  ]);

export const nothingToUndoView = (): MessageView =>
  says([
    md`**There is nothing to take back,** or you did something else since. **/upkeep undo** takes back the last thing.`,
  ]);

export const nothingToEditView = (): MessageView =>
  says([md`**Say what to change:** every, at, zone, next, name or tank. Nothing was changed.`]);

export const noSuchTankView = (typed: string): MessageView =>
  says([md`**You have no tank “${cut(typed, 60)}” here.** **/tank list** shows yours. Nothing was changed.`]);
