/** What is said at the weight of a dive, the most first, by the width of a day. */
import type { DiveView } from './dive-view';
import type { Piece, Row } from './label-rows';
import type { StripForm } from './strip-form';
import { fitted, textWidth } from './text-width';

/** A caution asks for a change or says stop, where no pennant does. */
const CARE_SIGN = { stop: '!!', change: '!' } as const;

function depthPieces(view: DiveView): Row {
  const depth: Piece = { style: 'depth', text: view.isAdded ? `+${view.sounding}` : view.sounding };
  if (view.care === null || view.isPast) return [depth];
  return [depth, { style: 'care', text: CARE_SIGN[view.care] }];
}

/** "24/29": depth and time, as everywhere on the strip. */
function figures(view: DiveView): Row {
  const [depth, ...care] = depthPieces(view);
  return [depth!, { style: 'note', text: `/${view.timeText}` }, ...care];
}

function row(style: Piece['style'], text: string): readonly Row[] {
  return text === '' ? [] : [[{ style, text }]];
}

/** How much room the tightest has, and by how much others are over: told without pointing at them. */
function noteOf(view: DiveView): readonly Row[] {
  if (view.isPast) return row('past', view.over);
  return view.isTightestOfTrip && view.room !== null ? row('italic', `${view.room} room`) : [];
}

/** "2 over" */
function shortOver({ over }: DiveView): string {
  return over.replace(/ min over.*$/, ' over');
}

function listed(...texts: readonly string[]): string {
  return texts.filter((text) => text !== '').join(', ');
}

/** Falling away in this order: who, the other mix, the note, the time. */
function shortVariants(view: DiveView): readonly (readonly Row[])[] {
  const base = figures(view);
  const note = noteOf(view);
  const withMore = (more: string): Row => (more === '' ? base : [...base, { style: 'mix', text: more }]);
  const all = listed(view.otherMix, view.part ?? '');
  const variants: (readonly Row[])[] = [[withMore(all), ...note]];
  if (all !== '') variants.push([base, ...row('mix', all), ...note]);
  if (all !== view.otherMix) variants.push([withMore(view.otherMix), ...note]);
  if (view.otherMix !== '') variants.push([base, ...note]);
  if (view.isPast) {
    // What is over a limit is said, in fewer words, as long as anything is.
    const short = row('past', shortOver(view));
    variants.push([base, ...short], [depthPieces(view), ...short]);
  } else if (note.length > 0) {
    variants.push([base]);
  }
  variants.push([depthPieces(view)]);
  return variants;
}

/** The dive told whole: site, depth and time, from when to when, room. */
function longVariants(view: DiveView): readonly (readonly Row[])[] {
  const [depth, ...care] = depthPieces(view);
  const time = listed(`${view.timeText} min`, view.otherMix, view.part ?? '');
  const line: Row = [
    { ...depth!, text: `${depth!.text} ${view.depthUnit}` },
    ...care,
    { style: 'note', text: time },
  ];
  const name = row('name', view.siteName);
  const times = row('note', view.timesText);
  const room = view.isPast
    ? row('past', view.over)
    : row(
        'italic',
        view.room === null ? '' : `room ${view.room}${view.isTightestOfTrip ? ', the tightest' : ''}`,
      );
  return [
    [...name, line, ...times, ...room],
    [...name, line, ...room],
    [line, ...times, ...room],
    ...shortVariants(view).slice(-3),
  ];
}

/** The words of a site, on two lines of a width. */
function nameRows(name: string, widthPx: number): readonly Row[] {
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const last = lines.at(-1);
    const joined = last === undefined ? word : `${last} ${word}`;
    if (last !== undefined && textWidth(joined, 'condensed', 12.5) <= widthPx)
      lines[lines.length - 1] = joined;
    else lines.push(word);
  }
  return lines.slice(0, 2).flatMap((line) => row('note', fitted(line, 'condensed', 12.5, widthPx)));
}

/** The one label of a day that has no room for more. */
function leastVariants(view: DiveView, widthPx: number): readonly (readonly Row[])[] {
  const base = figures(view);
  const mix = row('mix', view.otherMix);
  const over = row('past', fitted(shortOver(view), 'condensed', 12.5, widthPx));
  return [
    [base, ...nameRows(view.siteName, widthPx), ...mix, ...over],
    [base, ...over],
    [base],
    [depthPieces(view)],
  ];
}

/** @param dayWidthPx at 100 % text */
export function labelVariants(
  view: DiveView,
  form: StripForm,
  dayWidthPx: number,
): readonly (readonly Row[])[] {
  if (view.isMissed) return [];
  if (form === 'day') return longVariants(view);
  return form === 'least' ? leastVariants(view, dayWidthPx - 8) : shortVariants(view);
}
