/** Moments of this machine's own clock and calendar, as wall-clock text; what belongs to the trip never passes here. */

function two(n: number): string {
  return String(n).padStart(2, '0');
}

/** "2027-03-06T07:30" of a moment where this machine stands. */
export function localText(at: Date): string {
  const date = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${date}T${two(at.getHours())}:${two(at.getMinutes())}`;
}

/** Today's date on this machine's calendar. */
export function todayText(): string {
  return localText(new Date()).slice(0, 10);
}
