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
