// From the words of a telling feature to the part of the drawing that shows it.
import type { ColourWord, PlainColour } from './ink.ts';
import type { Part, Parts } from './pen.ts';
import type { Point } from './svg.ts';

const SIZE = /^size|^width of|\bsize\b/i;
const PLACE =
  /where (it|they|exactly|the body)|^where$|^place|^host|what it sits on|what it covers|^home|flesh|tissue|damage|under the edge/i;

/** Feature words and the parts that can show them, the best one first. The first row that matches counts. */
const RULES: readonly (readonly [RegExp, readonly Part[]])[] = [
  [/arms spread/i, ['arms']],
  [/^body and gait/i, ['legs', 'body']],
  [/^colour and movement/i, ['skin', 'body']],
  [/^hair$/i, ['bristles', 'skin']],
  [/^close up/i, ['tips', 'edge']],
  [/coral it lives on/i, ['ground']],
  [/microscope|cell check|sample taken|month|two weeks|overnight|speed|which fish|came from|how many fish|how long|hours|company|sound|behaviour|when\b|how it closes|tell by eye/i, []],
  [/movement|way of moving|response|reaction|striking|what they do|what it does|stays on|by day$|how it moves|posture|habit|victims|snails$|food|feeding|gait|marks (it|it) leaves|catches|sticks to it/i, []],
  [/size of the spots|look of the spots|colour of the spots|sure sign/i, ['spots', 'pattern', 'surface']],
  [/size and canal/i, ['mouth']],
  [/^height/i, ['top', 'shell']],
  [/size and (shape|tail|middle|arms|fuzz)/i, ['tail', 'arms', 'edge', 'body']],
  [/^number$|^how many|number over/i, []],
  [SIZE, []],
  [/bubbles?\b/i, ['bubbles']],
  [/gills along|gill tufts?/i, ['gills', 'back']],
  [/gill covers/i, ['fish-gills']],
  [/lobe/i, ['lobe', 'head']],
  [/head and jaws/i, ['jaws', 'head']],
  [/bristles|coat of/i, ['bristles', 'side', 'skin']],
  [/feelers and mouth fans|mouth fans/i, ['fans', 'head', 'mouth']],
  [/head and feelers|legs and feelers|feelers/i, ['feelers', 'tentacles', 'head']],
  [/eyes and trunk/i, ['trunk', 'eyes', 'head']],
  [/eyes/i, ['eyes', 'head']],
  [/eggs?\b/i, ['eggs', 'base', 'ground']],
  [/claw tips/i, ['claw-tips', 'claws']],
  [/claws? and cover|claws/i, ['claws', 'head']],
  [/last pair/i, ['last-legs', 'legs']],
  [/sides of the body/i, ['side', 'bristles', 'legs']],
  [/shell and legs|surface of the shell|shell and lip/i, ['shell', 'surface', 'body']],
  [/legs/i, ['legs', 'feelers', 'base', 'body']],
  [/lid\b|door/i, ['lid', 'mouth', 'crown']],
  [/opening of the shell|mouth of the shell|width of the tube mouth/i, ['mouth', 'tube']],
  [/what comes out( of the mouth)?$/i, ['threads', 'crown', 'feelers', 'mouth']],
  [/what comes out of the (shell|mouth|hole)|what comes out|what sticks out|top of the tube/i, ['crown', 'threads', 'trunk', 'feelers', 'legs', 'foot', 'mouth']],
  [/top of the shell|^top$/i, ['top', 'shell']],
  [/underside$/i, ['hole', 'mouth', 'foot']],
  [/underside and front/i, ['tentacles', 'feelers', 'foot', 'head']],
  [/tips of the tentacles|tips/i, ['tips', 'tentacles']],
  [/tentacles near the front/i, ['feelers', 'head']],
  [/tentacles|fringe|rays of the crown|mix of|polyps?$|open polyp|fuzz close/i, ['tentacles', 'crown', 'surface', 'skin']],
  [/width of the open crown|crown/i, ['crown', 'tentacles']],
  [/number of threads|threads start|^threads|feeding threads/i, ['threads', 'feelers', 'crown', 'body']],
  [/surface of the thread or arm/i, ['arms', 'threads']],
  [/^column|stalk/i, ['column', 'base']],
  [/^mat$|joined up|joined or single/i, ['mat', 'base', 'foot', 'column']],
  [/^foot$|where the foot|how it holds on|hold and edge|base$|tube feet/i, ['tube-feet', 'foot', 'base', 'runner', 'side', 'edge']],
  [/runner|build$|build of the shoots|how it sits/i, ['runner', 'strand', 'base', 'body']],
  [/strand|side branches|structure/i, ['strand', 'edge', 'surface', 'body']],
  [/wall of the tube|^tube$/i, ['tube', 'base', 'ground', 'hole']],
  [/thorns|spines|knobs/i, ['spines', 'knobs', 'arms', 'surface']],
  [/number and shape of the arms|shape of the arms|size and arms|number of arms|^arms|size across the arms/i, ['arms']],
  [/bands|petal|under the rubble|surface of the body/i, ['surface', 'spines', 'skin']],
  [/what it wears|^cover$/i, ['cover', 'body']],
  [/blue rings|pattern|spots|sheen|shine|stripes?|checks/i, ['pattern', 'spots', 'surface', 'skin', 'body']],
  [/disc\b|where the tentacles stand/i, ['disc', 'surface', 'tentacles']],
  [/holes|openings?/i, ['hole', 'mouth', 'surface', 'body']],
  [/tail end|^tail|rear edge|size and tail/i, ['tail', 'rear', 'body']],
  [/front end|^head|back and head/i, ['head', 'trunk', 'tentacles', 'feelers']],
  [/fingers on the back|^back|plates on|edges of the back|back and beak/i, ['back', 'gills', 'plates', 'skin']],
  [/mantle|soft parts/i, ['mantle', 'foot', 'edge']],
  [/edge|outline|shape of the shell|height|top of/i, ['edge', 'side', 'shell', 'body']],
  [/thickness|cross section|seen from the side/i, ['thickness', 'side', 'edge', 'skin']],
  [/folds/i, ['edge', 'surface']],
  [/rings on the body|middle of the body/i, ['body', 'side']],
  [/surface|skin$|texture|look of the spots|what shows|size of the spots/i, ['spots', 'surface', 'skin', 'body']],
  [/^shell$|thick and|size and canal/i, ['shell', 'surface', 'body']],
  [PLACE, ['ground', 'hole']],
  [/colour/i, ['skin', 'surface', 'pattern', 'body']],
  [/shape|form\b|body|structure|width/i, ['edge', 'side', 'shell', 'body']],
]; // prettier-ignore

/** Where the line for a feature ends in this drawing; nothing when a still picture cannot show it. */
export function tellingPart(feature: string, parts: Parts & { body: Point }): { part: Part; at: Point } | undefined {
  const wanted = RULES.find(([words]) => words.test(feature))?.[1] ?? [];
  for (const part of wanted) {
    const at = parts[part];
    if (at) return { part, at };
  }
  return undefined;
}

/** Whether a feature tells a size, which the bar below the drawing shows. */
export function tellsSize(feature: string): boolean {
  return SIZE.test(feature);
}

/** Whether a feature tells of a place, which can be drawn behind the animal. */
export function tellsPlace(feature: string): boolean {
  return PLACE.test(feature);
}

const COLOUR_FEATURE = /colour/i;
/** Words after which a colour belongs to a mark on the animal and not to the animal. */
const MARKS_IN_WORDS = /^coloured|\b(none|not|may)\b|\b(rings?|stripes?|striped|lines?|bands?|banded)\b/i;
const COLOURS_IN_WORDS: readonly (readonly [RegExp, PlainColour])[] = [
  [/\bwhit(e|ish)\b/i, 'white'], [/\bclear\b/i, 'clear'], [/\bgr[ea]y\b/i, 'grey'], [/\bblack\b/i, 'black'], [/\b(brown|rusty|burgundy)\b/i, 'brown'],
  [/\btan\b/i, 'tan'], [/\bred\b/i, 'red'], [/\borange\b/i, 'orange'], [/\bpink(ish)?\b/i, 'pink'], [/\b(yellow|mustard|golden)\b/i, 'yellow'],
  [/\bgreen(ish)?\b/i, 'green'], [/\bblue\b/i, 'blue'], [/\bpurple\b/i, 'purple'],
]; // prettier-ignore

/** The colours a feature gives to one side, in the order of its words; empty when it says nothing about colour. */
export function coloursInFeature(feature: string, words: string): ColourWord[] {
  if (!COLOUR_FEATURE.test(feature) || MARKS_IN_WORDS.test(words)) return [];
  return COLOURS_IN_WORDS.flatMap(([pattern, colour]) => {
    const found = words.search(pattern);
    return found < 0 ? [] : [{ found, colour }];
  })
    .sort((one, other) => one.found - other.found)
    .map(({ colour }) => colour);
}
