/**
 * Saves one trip over and over, until it is killed: `saver.js FOLDER TOKEN FROM`. Each text bears a number;
 * the number is printed once its save was acknowledged.
 */
import { writeSync } from 'node:fs';
import { tripFiles } from '../../electron/trip-files';

const [, , folder = '', token = '', from = '0'] = process.argv;
const none = { list: () => [], remember: () => {}, forget: () => {} };
const trips = tripFiles({ folder, recent: none });

writeSync(1, 'ready\n');
for (let number = Number(from); ; number += 1) {
  // Large enough that a save takes several writes to the disk.
  const text = JSON.stringify({
    format: 'carryover/trip',
    version: 1,
    title: 'Killed',
    number,
    notes: 'x'.repeat(60_000),
  });
  // One save after the other is the point: the process dies in the middle of one of them.
  // oxlint-disable-next-line no-await-in-loop
  await trips.write(token, text, 'Killed', null);
  writeSync(1, `${number}\n`);
}
