/**
 * `npm run attack`: every attack whole, counts printed; ends with 1 where anything fell. `npm run attack --
 * documents` runs those with the word in their title, `--times 500` each so many times.
 * To add an attack: 1. a file here that exports one, 2. its name in the list; `npm test` then runs it in part.
 */
import { parseArgs } from 'node:util';
import { isStarted } from '../../build/paths';
import type { Attack } from './attack';
import { bridgeAttack } from './bridge';
import { errorAttack } from './disk-errors';
import { killAttack } from './disk-kills';
import { powerAttack } from './disk-power';
import { rivalAttack } from './disk-rivals';
import { settingsAttack } from './disk-settings';
import { documentAttack } from './documents';
import { hostileDocumentAttack } from './hostile-documents';
import { mendingAttack } from './mending';
import { outputAttack } from './outputs';
import { pathAttack } from './paths';
import { hostileRecordedAttack, recordedAttack, recordedTableAttack } from './recorded-texts';
import {
  hostileSiteAttack,
  hostileWaypointAttack,
  placemarkAttack,
  siteListAttack,
  waypointAttack,
} from './site-texts';

/** In three parts, as `npm test` runs one after another on a core of its own. */
export const ON_TRIPS: readonly Attack[] = [
  documentAttack,
  hostileDocumentAttack,
  mendingAttack,
  outputAttack,
];

export const ON_OTHER_TEXTS: readonly Attack[] = [
  siteListAttack,
  waypointAttack,
  placemarkAttack,
  hostileSiteAttack,
  hostileWaypointAttack,
  recordedAttack,
  recordedTableAttack,
  hostileRecordedAttack,
];

export const ON_THE_MACHINE: readonly Attack[] = [
  killAttack,
  errorAttack,
  powerAttack,
  rivalAttack,
  settingsAttack,
  bridgeAttack,
  pathAttack,
];

const ATTACKS = [...ON_TRIPS, ...ON_OTHER_TEXTS, ...ON_THE_MACHINE];

async function attack(): Promise<void> {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { times: { type: 'string' } },
  });
  const word = positionals[0]?.toLowerCase() ?? '';
  const chosen = ATTACKS.filter(({ title }) => title.toLowerCase().includes(word));
  let fallen = 0;
  for (const { title, whole, run } of chosen) {
    const from = performance.now();
    const { tried, told, fell } = await run(Number(values.times ?? whole));
    const held = fell.length === 0 && tried > 0;
    if (!held) fallen += 1;
    const seconds = ((performance.now() - from) / 1000).toFixed(0);
    console.log(`${held ? '  ' : '! '}${title}: tried ${tried} times, ${fell.length} fell (${seconds} s)`);
    for (const line of told) console.log(`    ${line}`);
    for (const line of fell) console.log(`!   ${line}`);
  }
  console.log(`attacks: ${chosen.length - fallen} held, ${fallen} fell`);
  process.exitCode = fallen === 0 && chosen.length > 0 ? 0 : 1;
}

if (isStarted(import.meta.url)) await attack();
