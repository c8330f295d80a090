/** A rival in a process of its own: `rival-process.js FILE FOLDER NAME SAVES`. It begins once it is told on its input. */
import { once } from 'node:events';
import { writeSync } from 'node:fs';
import { rival } from './rival';

const [, , path = '', folder = '', name = '', count = '0'] = process.argv;
writeSync(1, 'ready\n');
await once(process.stdin, 'data');
process.stdin.destroy();
const outcome = await rival(path, folder, name, Number(count));
writeSync(1, JSON.stringify(outcome));
