/**
 * Writing whole files so that none is ever half there: a write goes to a file beside it, is flushed to the
 * disk, and takes the place of the old one in a single step. What is not text stays: links are followed,
 * the mode is kept, a read-only file is refused. Several programs may write one file: each has a name of
 * its own beside it, and only one at a time looks at what stands there and takes its place.
 */
import { createHash, randomBytes } from 'node:crypto';
import type { Stats } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { changedTrouble } from '../../core/library';
import { flushFolder, namesIn, stampOf, type FileSystem } from './disk';
import { codeOf, DiskTrouble, noFileTrouble, readOnlyTrouble, writeTrouble } from './disk-trouble';

/** Windows holds a file for a moment while a scanner or the indexer looks at it. */
const BUSY_CODES = new Set(['EPERM', 'EBUSY', 'EACCES']);
const BUSY_RETRIES_MS = [20, 80, 300, 800];

/** The time that is to stand on a file must differ from the last even where a disk counts in 2 s steps. */
const STAMP_STEPS_MS = [0, 1, 1000, 2000];

/** Past this a stamp is a damaged one, and saves need not be later, only other. */
const LAST_SANE_STAMP = '2200-01-01T00:00:00.000Z';

/** What a save or a turn that was killed leaves beside a file, and when nobody can be at it any more. */
const LEFT_OVER = /^\.carryover-[0-9a-f]{16}\.(saving|turn)$/;
const LEFT_OVER_AFTER_MS = 3_600_000;

/**
 * A turn takes two calls of the system, which a busy disk answered in up to 2 s; one that stands unchanged for
 * so long was left by a kill, and whoever is late with theirs by half of it begins anew.
 */
const TURN_LEFT_AFTER_MS = 10_000;
const TURN_LOOK_MS = 10;

const MAX_LINKS = 40;

export interface WriteRequest {
  readonly path: string;
  readonly content: string | Uint8Array;
  readonly nowMs: number;
  /** A stamp; the file bears a later one. Left out or empty: any. */
  readonly laterThan?: string | undefined;
  /** The stamp of what is to be replaced, null for nothing; where it is another by then, nothing is written. */
  readonly replaces?: string | null | undefined;
  /** Called with the stamp when all bytes are on the disk and nothing has taken its place yet. */
  readonly beforeRename?: (savedAt: string) => Promise<void>;
  /** Called when the file has taken its place, before that is flushed. */
  readonly onRenamed?: (savedAt: string) => void;
}

/** Writes a file atomically and returns its stamp; the old one stays whole whatever goes wrong. */
export async function writeAtomically(fs: FileSystem, request: WriteRequest): Promise<string> {
  const { path, content } = request;
  let beside = '';
  try {
    const target = await targetOf(fs, path);
    const standing = await standingAt(fs, target);
    const folder = dirname(target);
    beside = join(folder, `.carryover-${randomBytes(8).toString('hex')}.saving`);
    const savedAt = await writeFlushed(fs, beside, request, standing);
    await request.beforeRename?.(savedAt);
    await takePlace(fs, beside, target, request);
    request.onRenamed?.(savedAt);
    await flushFolder(fs, folder);
    await sweep(fs, target).catch(() => {});
    return savedAt;
  } catch (error) {
    // Best effort: the failure itself is what the user must hear of.
    if (beside !== '') await fs.rm(beside, { force: true }).catch(() => {});
    if (error instanceof DiskTrouble) throw error;
    throw new DiskTrouble(writeTrouble(error, path, Buffer.byteLength(content)));
  }
}

/** The file that a name stands for, links followed, also where the last of them leads to nothing yet. */
async function targetOf(fs: FileSystem, path: string): Promise<string> {
  let target = resolve(path);
  for (let links = 0; links <= MAX_LINKS; links += 1) {
    // Each link can only be looked up once the one before it has been.
    // oxlint-disable-next-line no-await-in-loop
    const about = await fs.lstat(target).catch((error: unknown) => {
      if (codeOf(error) === 'ENOENT') return null;
      throw error;
    });
    if (about === null || !about.isSymbolicLink()) return target;
    // oxlint-disable-next-line no-await-in-loop
    const folder = await fs.realpath(dirname(target));
    // oxlint-disable-next-line no-await-in-loop
    target = resolve(folder, await fs.readlink(target));
  }
  throw Object.assign(new Error('too many links'), { code: 'ELOOP' });
}

/** What stands at a place that is to be written; null for nothing. Throws where nothing may take its place. */
async function standingAt(fs: FileSystem, path: string): Promise<Stats | null> {
  let about: Stats;
  try {
    about = await fs.stat(path);
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw error;
  }
  if (!about.isFile()) throw new DiskTrouble(noFileTrouble(path, about.isDirectory()));
  // Of its mode, not of what this user may do: who may do anything would write over what was closed.
  if ((about.mode & 0o222) === 0) throw new DiskTrouble(readOnlyTrouble(path));
  return about;
}

async function writeFlushed(
  fs: FileSystem,
  path: string,
  request: WriteRequest,
  standing: Stats | null,
): Promise<string> {
  // Nobody but its writer sees it until it has the mode of what it replaces.
  const file = await fs.open(path, 'wx', standing === null ? 0o666 : 0o600);
  try {
    await file.writeFile(request.content);
    if (standing !== null) {
      const own = await file.stat();
      // Another's file in a shared folder: its group can be kept, its owner only by who may give files away.
      if (own.uid !== standing.uid || own.gid !== standing.gid) {
        await file
          .chown(standing.uid, standing.gid)
          .catch(() => file.chown(own.uid, standing.gid))
          .catch(() => {});
      }
      if (own.mode !== standing.mode) await file.chmod(standing.mode & 0o7777);
    }
    const { laterThan = '' } = request;
    const isSane = laterThan < LAST_SANE_STAMP;
    const earliestMs = laterThan === '' || !isSane ? 0 : Date.parse(laterThan);
    let savedAt = '';
    for (const stepMs of STAMP_STEPS_MS) {
      // Half a millisecond more: seconds as a floating number would else often fall a millisecond short.
      const stampS = (Math.max(request.nowMs, earliestMs + stepMs) + 0.5) / 1000;
      // A stamp is right only once it was read back.
      // oxlint-disable-next-line no-await-in-loop
      await file.utimes(stampS, stampS);
      // oxlint-disable-next-line no-await-in-loop
      savedAt = stampOf(await file.stat());
      if (isSane ? savedAt > laterThan : savedAt !== laterThan) break;
    }
    await file.sync();
    return savedAt;
  } finally {
    await file.close();
  }
}

/** Puts the file beside in its place, unless something else stands there than it was made to replace. */
async function takePlace(
  fs: FileSystem,
  beside: string,
  target: string,
  { path, replaces }: Pick<WriteRequest, 'path' | 'replaces'>,
): Promise<void> {
  if (replaces === undefined) return renameOver(fs, beside, target);
  const isDone = await inTurn(fs, target, async (isLate) => {
    const standing = await standingAt(fs, target);
    const stamp = standing === null ? null : stampOf(standing);
    if (stamp !== replaces) throw new DiskTrouble(changedTrouble(path));
    if (isLate()) return false;
    await renameOver(fs, beside, target);
    return true;
  });
  if (!isDone) await takePlace(fs, beside, target, { path, replaces });
}

/**
 * Does a short piece of work while no other Carryover does one at the same file, on this machine or
 * another. Where no turn can be had the work is done all the same: who loses then is told by the watch.
 */
async function inTurn<T>(
  fs: FileSystem,
  target: string,
  work: (isLate: () => boolean) => Promise<T>,
): Promise<T> {
  const digest = createHash('sha256').update(basename(target)).digest('hex').slice(0, 16);
  const turn = join(dirname(target), `.carryover-${digest}.turn`);
  const mine = await takeTurn(fs, turn);
  const takenMs = performance.now();
  try {
    return await work(() => mine !== null && performance.now() - takenMs > TURN_LEFT_AFTER_MS / 2);
  } finally {
    if (mine !== null) await endTurn(fs, turn, mine);
  }
}

async function endTurn(fs: FileSystem, turn: string, mine: string): Promise<void> {
  const standing = await markOf(fs, turn);
  // Where someone took it for left over, the one that stands there is theirs.
  if (standing !== null && standing !== mine) return;
  const end = (): Promise<void> => fs.rm(turn, { force: true });
  await end()
    .catch(end)
    .catch(() => {});
}

/** Waits for the turn and returns its mark; null where none can be had. */
async function takeTurn(fs: FileSystem, turn: string): Promise<string | null> {
  let standing: string | null = null;
  let waitedMs = 0;
  for (;;) {
    // Waiting for others is done one look after the other.
    /* oxlint-disable no-await-in-loop */
    try {
      const file = await fs.open(turn, 'wx');
      try {
        return mark(await file.stat());
      } catch (error) {
        // Made and not known by its mark, nobody would end it, and the next save would wait for it.
        await fs.rm(turn, { force: true }).catch(() => {});
        throw error;
      } finally {
        await file.close();
      }
    } catch (error) {
      if (codeOf(error) !== 'EEXIST') return null;
    }
    const now = await markOf(fs, turn);
    if (now !== standing) [standing, waitedMs] = [now, 0];
    if (waitedMs < TURN_LEFT_AFTER_MS) {
      await new Promise((done) => setTimeout(done, TURN_LOOK_MS));
      waitedMs += TURN_LOOK_MS;
    } else {
      // Renamed and not removed: of several who find it left over, one alone succeeds.
      const taken = join(dirname(turn), `.carryover-${randomBytes(8).toString('hex')}.turn`);
      await fs.rename(turn, taken).catch(() => {});
      await fs.rm(taken, { force: true }).catch(() => {});
      waitedMs = 0;
    }
    /* oxlint-enable no-await-in-loop */
  }
}

/** Tells one turn from the next. */
function mark({ ino, mtimeMs }: Stats): string {
  return `${ino} ${mtimeMs}`;
}

async function markOf(fs: FileSystem, turn: string): Promise<string | null> {
  return fs.stat(turn).then(mark, () => null);
}

async function renameOver(fs: FileSystem, from: string, to: string): Promise<void> {
  for (const pauseMs of BUSY_RETRIES_MS) {
    try {
      // oxlint-disable-next-line no-await-in-loop
      await fs.rename(from, to);
      return;
    } catch (error) {
      if (process.platform !== 'win32' || !BUSY_CODES.has(codeOf(error))) throw error;
      // oxlint-disable-next-line no-await-in-loop
      await new Promise((done) => setTimeout(done, pauseMs));
    }
  }
  await fs.rename(from, to);
}

/**
 * Takes away what killed saves left, once nobody can be at it: another may save in this folder right now. Ages
 * are told by the disk's own clock, that of the file just saved; the machine's may be hours from it.
 */
async function sweep(fs: FileSystem, saved: string): Promise<void> {
  const folder = dirname(saved);
  const left = (await namesIn(fs, folder)).filter((name) => LEFT_OVER.test(name));
  if (left.length === 0) return;
  const { ctimeMs: diskNowMs } = await fs.stat(saved);
  await Promise.all(
    left.map(async (name) => {
      const path = join(folder, name);
      const { ctimeMs } = await fs.stat(path);
      if (diskNowMs - ctimeMs > LEFT_OVER_AFTER_MS) await fs.rm(path, { force: true });
    }),
  );
}
