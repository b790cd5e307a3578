import type { MentionAnswer } from '../discord/command.ts';
import { joined, md, type MessageView } from '../discord/message-view.ts';
import type { Critter } from '../knowledge/critter.ts';
import type { Finder } from '../knowledge/finder.ts';
import type { KnowledgeBase } from '../knowledge/knowledge-base.ts';
import { lookUp, type LookUp } from '../knowledge/look-up.ts';
import { normaliseName } from '../knowledge/normalise.ts';
import { compareView } from './compare.view.ts';
import { answerLookUp } from './critter-answers.ts';
import { noteView } from './names.view.ts';

/** Words of a question that are no part of an animal's name. */
const QUESTION_WORDS = new Set(
  `a an the is are was it its this that these those my our in on of to do does did i we you he she they me what whats
   which who how why when where can could should would will be been am bad good harmful harmless dangerous safe ok okay
   pest cleaner hitchhiker friend foe help please hi hello hey thanks or and vs versus with from for tank reef aquarium
   new found got has have just think maybe looks look like some any one kill eat remove keep leave about tell know`
    .split(/\s+/)
    .map((word) => normaliseName(word)),
);
const LONGEST_NAME_WORDS = 6;

/**
 * The names that a sentence holds, in order. The longest stretch of words that is a name wins; a name that means
 * an everyday thing as well counts only when nothing else was said. Typos are tried once no exact name was found.
 */
export function namesInText(base: KnowledgeBase, finder: Finder, text: string): LookUp[] {
  const words = normaliseName(text).split(' ').filter(Boolean);
  const found: LookUp[] = [];
  for (let start = 0; start < words.length;) {
    const taken = longestNameAt(base, finder, words, start);
    if (taken) found.push(taken.found);
    start += taken?.length ?? 1;
  }
  if (found.length > 0) return found;
  const rest = words.filter((word) => !QUESTION_WORDS.has(word));
  if (rest.length === 0) return [];
  return [lookUp(base, finder, rest.join(' '))];
}

function longestNameAt(base: KnowledgeBase, finder: Finder, words: readonly string[], start: number) {
  for (let length = Math.min(LONGEST_NAME_WORDS, words.length - start); length > 0; length -= 1) {
    const name = words.slice(start, start + length).join(' ');
    if (length === 1 && QUESTION_WORDS.has(name)) continue;
    const target = finder.exact(name);
    if (!target) continue;
    if (target.kind === 'question') {
      const question = base.ambiguousNames.find(({ id }) => id === target.id);
      const alone = words.filter((word) => !QUESTION_WORDS.has(word)).length === length;
      // A coral in the sentence is where the animal sits: "a worm on my brain coral" asks about the worm.
      const onlyCorals = question?.answers.every((answer) => 'coral' in answer);
      if (question && (question.mode !== 'ask' || onlyCorals) && !alone) continue;
    }
    return { found: lookUp(base, finder, name), length };
  }
  return null;
}

/** More words than a question about a name needs: somebody describes what they see. */
const isLong = (text: string) =>
  normaliseName(text)
    .split(' ')
    .filter((word) => !QUESTION_WORDS.has(word)).length > LONGEST_NAME_WORDS;

/** Answers "@bot is a bristle worm bad?" and, with two names, compares them. */
export function critterMention(
  base: KnowledgeBase,
  finder: Finder,
  describe: MentionAnswer = () => null,
  whenHurt: MentionAnswer = () => null,
): MentionAnswer {
  return (text, request) => {
    const help = whenHurt(text, request);
    if (help) return help;
    if (isLong(text)) {
      const described = describe(text, request);
      if (described) return described;
    }
    const names = namesInText(base, finder, text);
    const critters = [...new Set(names.flatMap((name) => ('critter' in name ? name.critter : [])))];
    // A name that means several animals is settled first: the others may hang on it.
    const first = names.find(({ kind }) => kind === 'question') ?? names[0];
    const [one, other] = critters;
    if (names.length > 1 && one && other && critters.length === 2 && first?.kind !== 'question')
      return compareView(base, one, other, { audience: 'everyone' });
    if (first?.kind === 'not-there') {
      const described = describe(text, request);
      if (described) return described;
    }
    if (first)
      return withOthers(
        answerLookUp(base, first, 'everyone'),
        critters.filter((critter) => !('critter' in first) || critter !== first.critter),
      );
    return {
      ...noteView(
        'Ask me about an animal',
        md`Name it and I say whether to leave it, watch it or take it out: **is a bristle worm bad?** Or use **/critter name**, which helps while you type.`,
      ),
      audience: 'everyone',
    };
  };
}

/** Says which other animals were named, so that nobody waits for a second answer. */
function withOthers(view: MessageView, others: readonly Critter[]): MessageView {
  if (others.length === 0) return view;
  const [head, ...rest] = view.blocks;
  const note = md`You also named ${joined(
    others.slice(0, 5).map(({ name }) => md`**${name}**`),
    ', ',
  )}. Ask about each by itself.`;
  return { ...view, blocks: [...(head ? [head] : []), { kind: 'text', text: note }, ...rest] };
}
