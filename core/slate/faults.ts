import type { Words } from '../words/reader';
import { inRow, NOTHING, said, type Said } from '../words/said';
import type { SlateFault } from './request';

/** What can stand in the way of a print-out, each with its mending, in the words of whoever asked for it. */

export function unknownDivers(words: Words, ids: readonly string[], known: readonly string[]): SlateFault {
  const quoted = inRow(ids.map((id) => `"${id}"`));
  return {
    kind: 'diver',
    what: words(said`${quoted} is in nobody’s ledger.`),
    where: 'diver',
    mend: words(said`Name a diver of the party by id: ${inRow(known)}.`),
  };
}

export function datesWithoutDives(
  words: Words,
  dates: readonly string[],
  known: readonly string[],
): SlateFault {
  return {
    kind: 'date',
    what: words(said`Nobody chosen dives on ${inRow(dates)}.`),
    where: 'days',
    mend: words(known.length === 0 ? said`Plan a dive first.` : said`Choose among ${inRow(known)}.`),
  };
}

export function nothingToPrint(words: Words): SlateFault {
  return {
    kind: 'nothing',
    what: words(said`There is nothing to print: nobody chosen has a dive.`),
    where: '',
    mend: words(said`Plan a dive, or choose other divers.`),
  };
}

/** Of what is about mixes, where the trip has none. */
export function noMixes(words: Words): SlateFault {
  return {
    kind: 'nothing',
    what: words(said`There is nothing to print: no mix is on board.`),
    where: '',
    mend: words(said`Add a mix to the trip first.`),
  };
}

/** Where there are dives, but the plan leaves out each of them. */
export function nothingMade(words: Words): SlateFault {
  return {
    kind: 'nothing',
    what: words(said`There is nothing to print: no mix can be used on any of the dives chosen.`),
    where: '',
    mend: words(said`Add a mix that can be used there, plan shallower, or choose other divers.`),
  };
}

/** @param atMostMm the widest margin with which it fits, in millimetres; null: there is none */
export function paperTooSmall(words: Words, name: string, kind: Said, atMostMm: number | null): SlateFault {
  return {
    kind: 'paper',
    what: words(said`A ${kind} does not fit on ${name} in type that can be read.`),
    where: 'paper',
    mend: words(
      atMostMm === null
        ? said`Choose a larger paper; each of the named papers takes it with the usual margins.`
        : said`Choose a larger paper, or ${marginUpTo(atMostMm)}.`,
    ),
  };
}

export function marginIsNone(words: Words, marginMm: number): SlateFault {
  return {
    kind: 'margin',
    what: words(said`A margin cannot be ${marginMm} mm wide.`),
    where: 'margin',
    mend: words(said`Give a margin of 0 mm or more.`),
  };
}

/** @param atMostMm the widest margin with which all fits, in millimetres; null: there is none, or it is not known */
export function marginTooWide(
  words: Words,
  name: string,
  marginMm: number,
  atMostMm: number | null,
): SlateFault {
  return {
    kind: 'margin',
    what: words(said`Margins of ${marginMm} mm leave too little of ${name}.`),
    where: 'margin',
    mend: words(
      atMostMm === null
        ? said`Give a margin from 0 mm to a quarter of the shorter side.`
        : said`Give ${marginUpTo(atMostMm)}, or choose a larger paper.`,
    ),
  };
}

function marginUpTo(atMostMm: number): Said {
  return atMostMm === 0 ? said`no margin` : said`a margin of at most ${atMostMm} mm`;
}

export function tagTooSmall(words: Words, label: string | null, paper: string): SlateFault {
  const of = label === null ? NOTHING : said` of ${label}`;
  return {
    kind: 'label',
    what: words(
      said`Tags${of} on ${paper} do not take what has to stand on them, with the cautions beside them.`,
    ),
    where: 'label',
    mend: words(said`Choose tags of 63.5x38.1mm or more, and a paper that holds at least three of them.`),
  };
}
