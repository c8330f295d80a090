/** What a hand does on a dive of the strip, in words: for the sheet of keys, which is loaded with it. */
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
