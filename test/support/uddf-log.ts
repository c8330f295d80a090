/** A day's log of one diver as a dive computer keeps it: a sample every ten seconds, none of it on a straight line. */

export interface LoggedDive {
  readonly startsAt: string;
  readonly site: string;
  readonly deepestM: number;
  readonly bottomMin: number;
  readonly endBar: number;
}

/** Down in a minute or so, over the reef in waves and slowly up, a stop at 5 m, up. */
function depthAt(min: number, { deepestM, bottomMin }: LoggedDive): number {
  if (min <= 1.5) return (deepestM * min) / 1.5;
  if (min <= bottomMin) {
    const share = (min - 1.5) / (bottomMin - 1.5);
    return deepestM * (1 - 0.45 * share) - 0.8 * (1 - Math.cos(min * 1.3));
  }
  const left = depthAt(bottomMin, { deepestM, bottomMin, startsAt: '', site: '', endBar: 0 });
  const up = left - 8 * (min - bottomMin);
  if (up > 5) return up;
  const stopFrom = bottomMin + (left - 5) / 8;
  return min <= stopFrom + 3 ? 5 + 0.2 * Math.sin(min * 7) : Math.max(0, 5 - 6 * (min - stopFrom - 3));
}

/** UDDF of some dives on EAN32. */
export function uddfLog(dives: readonly LoggedDive[], diver = 'Guest 2'): string {
  const dive = (logged: LoggedDive, at: number): string => {
    const points: string[] = [];
    for (let second = 0; ; second += 10) {
      const depthM = second === 0 ? 0 : Math.round(10 * depthAt(second / 60, logged)) / 10;
      points.push(`<waypoint><depth>${depthM}</depth><divetime>${second}</divetime></waypoint>`);
      if (second > 0 && depthM === 0) break;
    }
    return `<dive id="dive-${at}"><informationbeforedive><link ref="site-${at}"/><datetime>${logged.startsAt}</datetime></informationbeforedive>
<tankdata><link ref="mix-32"/><tankpressurebegin>20000000</tankpressurebegin><tankpressureend>${logged.endBar * 100_000}</tankpressureend></tankdata>
<samples>${points.join('\n')}</samples></dive>`;
  };
  return `<?xml version="1.0"?><uddf xmlns="http://www.streit.cc/uddf/3.2/" version="3.2.2">
<diver><owner id="owner"><personal><firstname>${diver}</firstname><lastname/></personal></owner></diver>
<divesite>${dives.map(({ site }, at) => `<site id="site-${at}"><name>${site}</name></site>`).join('')}</divesite>
<gasdefinitions><mix id="mix-32"><name>EAN32</name><o2>0.32</o2><n2>0.68</n2></mix></gasdefinitions>
<profiledata><repetitiongroup id="group">${dives.map(dive).join('\n')}</repetitiongroup></profiledata></uddf>`;
}
