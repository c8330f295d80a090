import type { SlateFault } from './request';

/** What can stand in the way of a print-out, each with its mending. */

export function unknownDivers(ids: readonly string[], known: readonly string[]): SlateFault {
  return {
    kind: 'diver',
    what: `${ids.map((id) => `"${id}"`).join(', ')} is in nobody's ledger.`,
    where: 'diver',
    mend: `Name a diver of the party by id: ${known.join(', ')}.`,
  };
}

export function datesWithoutDives(dates: readonly string[], known: readonly string[]): SlateFault {
  return {
    kind: 'date',
    what: `Nobody chosen dives on ${dates.join(', ')}.`,
    where: 'days',
    mend: known.length === 0 ? 'Plan a dive first.' : `Choose among ${known.join(', ')}.`,
  };
}

export function nothingToPrint(): SlateFault {
  return {
    kind: 'nothing',
    what: 'There is nothing to print: nobody chosen has a dive.',
    where: '',
    mend: 'Plan a dive, or choose other divers.',
  };
}

/** Of what is about mixes, where the trip has none. */
export function noMixes(): SlateFault {
  return {
    kind: 'nothing',
    what: 'There is nothing to print: no mix is on board.',
    where: '',
    mend: 'Add a mix to the trip first.',
  };
}

/** Where there are dives, but the plan leaves out each of them. */
export function nothingMade(): SlateFault {
  return {
    kind: 'nothing',
    what: 'There is nothing to print: no mix may go on any dive of those chosen.',
    where: '',
    mend: 'Add a mix that may go there, plan shallower, or choose other divers.',
  };
}

/** @param atMostMm the widest margin with which it fits, in millimetres; null: there is none */
export function paperTooSmall(name: string, what: string, atMostMm: number | null): SlateFault {
  return {
    kind: 'paper',
    what: `${what} does not fit on ${name} in type that can be read.`,
    where: 'paper',
    mend:
      atMostMm === null
        ? `Choose a larger paper; each of the named papers takes it with the usual margins.`
        : `Choose a larger paper, or ${marginUpTo(atMostMm)}.`,
  };
}

export function marginIsNone(marginMm: number): SlateFault {
  return {
    kind: 'margin',
    what: `A margin cannot be ${marginMm} mm wide.`,
    where: 'margin',
    mend: 'Give a margin of 0 mm or more.',
  };
}

/** @param atMostMm the widest margin with which all fits, in millimetres; null: there is none, or it is not known */
export function marginTooWide(name: string, marginMm: number, atMostMm: number | null): SlateFault {
  return {
    kind: 'margin',
    what: `Margins of ${marginMm} mm leave too little of ${name}.`,
    where: 'margin',
    mend:
      atMostMm === null
        ? 'Give a margin from 0 mm to a quarter of the shorter side.'
        : `Give ${marginUpTo(atMostMm)}, or choose a larger paper.`,
  };
}

function marginUpTo(atMostMm: number): string {
  return atMostMm === 0 ? 'no margin' : `a margin of at most ${atMostMm} mm`;
}

export function tagTooSmall(label: string | null, paper: string): SlateFault {
  return {
    kind: 'label',
    what: `Tags${label === null ? '' : ` of ${label}`} on ${paper} do not take what has to stand on them, with the cautions beside them.`,
    where: 'label',
    mend: 'Choose tags of 63.5x38.1mm or more, and a paper that holds at least three of them.',
  };
}
