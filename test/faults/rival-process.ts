/** A rival in a process of its own: `rival-process.js FILE FOLDER NAME SAVES`. */
import { writeSync } from 'node:fs';
import { rival } from './rival';

const [, , path = '', folder = '', name = '', count = '0'] = process.argv;
const outcome = await rival(path, folder, name, Number(count));
writeSync(1, JSON.stringify(outcome));
