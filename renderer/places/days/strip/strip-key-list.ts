/** What keys do on a dive of the strip, in words: for the sheet of keys, and read out with the strip. */
export const STRIP_KEYS: readonly { readonly what: string; readonly keys: string }[] = [
  { what: 'deeper or shallower', keys: 'Down, Up' },
  { what: 'deeper or shallower by half a step', keys: 'Shift with Down, Up' },
  { what: 'five minutes later or earlier', keys: 'Right, Left' },
  { what: 'one minute later or earlier', keys: 'Alt with Right, Left' },
  { what: 'a day later or earlier', keys: 'Page Down, Page Up' },
  { what: 'a minute longer or shorter', keys: 'Shift with Right, Left' },
  { what: 'the next dive, or the one before', keys: 'Ctrl with Right, Left' },
  { what: 'add the next dive to those chosen, or the one before', keys: 'Ctrl and Shift with Right, Left' },
  { what: 'the first or the last dive', keys: 'Home, End' },
  { what: 'choose it alone, or with Shift beside others', keys: 'Enter' },
  { what: 'choose none', keys: 'Escape' },
  { what: 'log its day', keys: 'L' },
  { what: 'zoom in, zoom out, the whole trip, the days ahead', keys: '+, −, 0, 9' },
];

export const KEY_HELP = STRIP_KEYS.map(({ what, keys }) => `${keys}: ${what}`).join('. ');

/** What a hand does there, in words: for the same sheet. */
export const STRIP_HAND: readonly { readonly what: string; readonly hand: string }[] = [
  { what: 'deeper or shallower', hand: 'drag its weight' },
  { what: 'longer or shorter', hand: 'drag the end of its bar' },
  { what: 'earlier, later, on another day', hand: 'drag its line' },
  { what: 'by half a step, by the minute', hand: 'Shift while dragging' },
  { what: 'back to where it was', hand: 'Escape while dragging' },
  { what: 'choose one beside others', hand: 'Ctrl with a click' },
  { what: 'choose all up to it', hand: 'Shift with a click' },
  { what: 'all of it by its row', hand: 'click it on the board' },
  { what: 'choose several', hand: 'draw a frame in open water' },
  { what: 'choose a day', hand: 'click its date' },
  { what: 'a new dive', hand: 'double-click in open water' },
  { what: 'zoom in or out', hand: 'Ctrl with the wheel, two fingers' },
];
