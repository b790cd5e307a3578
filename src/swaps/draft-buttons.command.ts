import type { ButtonAct, FormAct } from '../discord/command.ts';
import type { Answer, Request } from '../discord/message-view.ts';
import { MOST_PHOTO_BYTES } from '../opinions/photo.ts';
import { Typed, type Draft, type TypedField } from './draft.ts';
import { draftForm, oneFieldForm, PHOTO_FIELD, photoForm } from './draft-form.view.ts';
import { draftGoneView, NONE_SEEN, photoTroubleWords, noted, thrownAwayView } from './draft.view.ts';
import { goOn, putUp, type OfferDeps } from './offering.command.ts';

const FIELDS = Object.keys(Typed.parse({}));
const isField = (name: string): name is TypedField =>
  FIELDS.includes(name) && !['give', 'pests', 'photoUrl', 'photoAlt'].includes(name);

/** A draft of whoever presses: nobody else's is ever found. */
function onDraft(
  { drafts }: OfferDeps,
  id: string | undefined,
  { guildId, memberId }: Request,
  run: (draft: Draft) => Answer,
): Answer {
  const draft = guildId === null ? undefined : drafts.find(Number(id), guildId, memberId);
  return draft ? run(draft) : draftGoneView();
}

/** The buttons and selects under a look at a draft. */
export function draftButtons(deps: OfferDeps): ButtonAct[] {
  const act = (
    name: string,
    run: (draft: Draft, request: Request, args: readonly string[], chosen: readonly string[]) => Answer,
  ): ButtonAct => ({
    act: name,
    run: ([id, ...args], request, chosen = []) =>
      onDraft(deps, id, request, (draft) => run(draft, request, args, chosen)),
  });
  const keep = (draft: Draft, change: Partial<Typed>): Draft => {
    const changed = { ...draft, typed: { ...draft.typed, ...change } };
    deps.drafts.save(changed);
    return changed;
  };
  return [
    act('frag-draft-again', (draft, _request, [fields = '']) => draftForm(draft, fields.split('.').filter(isField))),
    act('frag-draft-change', (draft) => draftForm(draft)),
    act('frag-draft-photo', (draft) => photoForm(draft)),
    act('frag-draft-post', (draft, request) => putUp(deps, draft, request)),
    act('frag-draft-show', (draft, request) => goOn(deps, draft, request)),
    act('frag-draft-drop', (draft) => {
      deps.drafts.remove(draft);
      return thrownAwayView();
    }),
    act('frag-draft-other', (draft, request, _args, [field = '']) => {
      if (field === 'give') return goOn(deps, keep(draft, { give: !draft.typed.give }), request, true);
      return isField(field) ? oneFieldForm(draft, field) : draftGoneView();
    }),
    act('frag-draft-pest', (draft, request, _args, [pest = '']) =>
      goOn(deps, keep(draft, { pests: toggled(draft.typed.pests, pest) }), request, true),
    ),
  ];
}

/** Chosen once it is in, chosen again it is out; "none seen" and pests put each other out. */
export function toggled(pests: readonly string[] | null, chosen: string): string[] | null {
  if (chosen === NONE_SEEN) return pests?.length === 0 ? null : [];
  const rest = (pests ?? []).filter((pest) => pest !== chosen);
  if (rest.length === (pests?.length ?? 0)) return [...rest, chosen];
  return rest.length > 0 ? rest : null;
}

/** The forms of a draft. What was typed is kept before anything is read. */
export function draftForms(deps: OfferDeps): FormAct[] {
  return [
    {
      act: 'frag-draft-filled',
      run: ([id], filled, request) =>
        onDraft(deps, id, request, (draft) => {
          const given = Object.fromEntries(Object.entries(filled).filter(([name]) => isField(name)));
          const changed = { ...draft, typed: Typed.parse({ ...draft.typed, ...given }) };
          deps.drafts.save(changed);
          return goOn(deps, changed, request, true);
        }),
    },
    {
      act: 'frag-draft-photo-sent',
      run: ([id], filled, request, files) =>
        onDraft(deps, id, request, (draft) => {
          const photo = files[PHOTO_FIELD];
          if (!photo) return goOn(deps, draft, request, true);
          if (photo.size > MOST_PHOTO_BYTES) return noted('That photo is too large', photoTroubleWords('too-large'));
          const photoAlt = filled['photoAlt'] || (photo.alt ?? '');
          const changed = { ...draft, typed: { ...draft.typed, photoUrl: photo.url, photoAlt } };
          deps.drafts.save(changed);
          return goOn(deps, changed, request);
        }),
    },
  ];
}
