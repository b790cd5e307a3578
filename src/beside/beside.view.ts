import { joined, md, mentionOf, type Block, type DrawnPicture, type Markdown, type MessageView } from '../discord/message-view.ts'; // prettier-ignore
import type { Coral } from '../knowledge/coral.ts';
import { cardLink } from '../swaps/find.view.ts';
import type { Beside, BesideKind, BesideOffer, BesideWant } from './beside.ts';
import type { Contrast } from './contrast.ts';
import type { Neighbour, NeighbourWarning } from './neighbour.ts';

type May = Extract<Neighbour, { kind: 'may' }>;

const text = (words: Markdown, fold = 0): Block => ({ kind: 'text', text: words, ...(fold > 0 ? { fold } : {}) });

/** Which colours stand out beside a coral, who has such a piece, and what can live there at all. */
export function besideView(answer: Beside, typed: string): MessageView {
  const { coral, colour, offers, wants, kinds } = answer;
  return {
    audience: 'member',
    tone: 'calm',
    blocks: [
      text(md`## Beside ${colour ? `${colour.word} ` : ''}${coral.name}`),
      ...(coral.palytoxin && coral.caution !== undefined ? [text(md`**Poison.** ${coral.caution}`)] : []),
      ...colourBlocks(answer, typed),
      ...aboutAsked(coral).map((words) => text(words)),
      ...section(colour ? md`**On offer now, in colours that stand out**` : md`**On offer now, and can live there**`, offers.map(offerLine)), // prettier-ignore
      ...(offers.length === 0 ? [text(md`Nobody offers a fitting piece now. **/frag want** watches for one.`)] : []),
      ...section(md`**You look for it already**`, wants.map(wantLine)),
      ...section(md`**Kinds that can live there.** Each comes in many colours, so choose yours by eye:`, kinds.map(kindLine)), // prettier-ignore
      ...(kinds.length === 0 ? [text(md`My books know no coral that is easily kept beside it.`)] : []),
      text(
        md`-# The distance is both reaches and 3 cm to grow, from edge to edge with both fully open; 8 cm at least where one creeps.`,
      ),
      text(
        md`-# What I can’t see: your lamp (blue light changes how every colour looks), whether a photo lies, and your flow. Corals change colour and grow. The distances still hold.`,
      ),
    ],
    foldedNotice: md`-# Shortened to fit.`,
  };
}

function colourBlocks({ colour, contrasts, coral }: Beside, typed: string): Block[] {
  if (!colour)
    return typed === ''
      ? [text(md`Add **colour:** for colours that stand out beside it, such as teal or salmon.`)]
      : [
          text(
            md`I know no colour in “${typed}”, so this goes by kind alone. Try a plain word: red, salmon, toxic green, teal, lavender, rainbow.`,
          ),
        ];
  const words = contrasts.map(({ word, why }) => md`**${word.word}** (${why})`);
  const alone = colour.family === 'many' ? md`Many colours at once stand out beside quiet ones` : md`These stand out`;
  return [text(md`${alone}: ${joined(words, ', ')}.`), swatchPicture(coral, colour, contrasts)];
}

function swatchPicture(coral: Coral, colour: NonNullable<Beside['colour']>, contrasts: readonly Contrast[]): Block {
  const draw = async (): Promise<DrawnPicture> => {
    const { colourSwatch, drawnChart } = await import('../drawing/charts/charts.ts');
    const asked = { name: colour.family === 'many' ? 'rainbow (shown grey)' : colour.word, hex: colour.hex };
    const shown = contrasts.slice(0, 4).map(({ word, why }) => ({ name: word.word, hex: word.hex, why }));
    return drawnChart(colourSwatch({ asked, beside: shown }));
  };
  return { kind: 'picture', name: `beside-${coral.id}.png`, draw };
}

/** What the asked coral does to whatever stands near it. */
function aboutAsked({ strength, chemical, containment, name }: Coral): Markdown[] {
  return [
    ...(strength === 'kills-most' ? [md`**${name} kills nearly every coral that it reaches.** Keep the distance, more if you can.`] : []), // prettier-ignore
    ...(chemical ? [md`**It harms stony corals through the water**, so none is named here.`] : []),
    ...(containment ? [md`**It creeps:** keep it on its own island, bare sand around, or it covers its neighbour.`] : []), // prettier-ignore
  ];
}

const section = (title: Markdown, lines: readonly Markdown[]): Block[] =>
  lines.length === 0 ? [] : [text(joined([title, ...lines]))];

const offerLine = ({ offer, coral, neighbour, colours }: BesideOffer): Markdown => {
  const { details, memberId } = offer;
  const colour = details.colour === null ? md`` : colours.length > 0 ? md`, ${details.colour}` : md``;
  return md`- **${details.name}**${colour}, by ${mentionOf(memberId)} · ${cardLink(offer)} · ${roomWords(neighbour, coral)}`;
};
const wantLine = ({ want, coral, neighbour }: BesideWant): Markdown => md`- **${want.words}**: ${roomWords(neighbour, coral)}`; // prettier-ignore
const kindLine = ({ coral, neighbour }: BesideKind): Markdown => md`- **${coral.name}** (${KIND_WORDS[coral.kind]}, ${coral.growthForm.replace('-', ' ')}): ${roomWords(neighbour, coral)}`; // prettier-ignore

const KIND_WORDS: Readonly<Record<Coral['kind'], string>> = {
  stony: 'stony',
  'octocoral-stony': 'soft kin with a hard skeleton',
  hydrocoral: 'hydrocoral, hard skeleton',
  soft: 'soft',
  zoanthid: 'zoanthid',
  corallimorph: 'mushroom coral',
};

/** "keep 8 cm apart, PAR 200 to 300; on its own island". */
function roomWords({ apartCm, par: [low, high], warnings }: May, { flow }: Coral): string {
  const notes = warnings.flatMap((warning) => WARNED[warning]?.(flow) ?? []);
  return [`keep ${apartCm} cm apart, PAR ${low} to ${high}`, ...notes].join('; ');
}

const WARNED: Partial<Record<NeighbourWarning, (flow: string) => string>> = {
  island: () => 'it creeps: its own island',
  flow: (flow) => `it likes ${flow} flow, so turn it to that side`,
  palytoxin: () => 'can hold poison: gloves and goggles',
  sweepers: () => 'sweepers at night',
  chemical: () => 'carbon, since one of them gives off chemicals',
};

const privately = (title: string, words: Markdown): MessageView => ({
  audience: 'member',
  tone: 'plain',
  blocks: [text(md`## ${title}`), text(words)],
});

export const noSuchCoralView = (typed: string): MessageView =>
  privately(
    'Which coral?',
    md`I know no coral “${typed}”. Type a few letters and choose from the list, such as torch, acro or zoas.`,
  );
