/**
 * A disk in memory that forgets what was not flushed, to lose its power at every step of the real
 * functions. Names (the entries of folders) and data (the bytes of files) are flushed apart, in two models:
 *
 * - **journalled**: names change in the order in which they were changed, so a loss keeps a beginning of
 *   what was done; any flush brings down all names so far. Data that was not flushed may be anything.
 *   Source: ext4 in its default mode (data=ordered with delayed allocation), from its kernel documentation.
 * - **strict**: what POSIX promises and no more: a name is there once its folder was flushed, data once
 *   the file was; every other change may have come through or not, each by itself.
 *   Source: POSIX.1-2024, fsync() and rename().
 */
import { constants } from 'node:fs';
import { posix } from 'node:path';
import type { FileSystem } from '../../electron/disk/disk';

export type DiskModel = 'journalled' | 'strict';

interface FileNode {
  readonly kind: 'file';
  readonly ino: number;
  data: Buffer;
  /** What the disk itself holds; null where it was never told. */
  flushed: Buffer | null;
  mode: number;
  mtimeMs: number;
  flushedMtimeMs: number;
}

interface FolderNode {
  readonly kind: 'folder';
  entries: Map<string, DiskNode>;
  flushed: Map<string, DiskNode>;
}

interface LinkNode {
  readonly kind: 'link';
  readonly to: string;
}

type DiskNode = FileNode | FolderNode | LinkNode;

/** One name set or taken away, and not flushed yet; a rename has two of one `step`. */
interface Change {
  readonly step: number;
  readonly folder: FolderNode;
  readonly name: string;
  readonly node: DiskNode | null;
}

function fault(code: string, path: string): Error {
  return Object.assign(new Error(`${code}: ${path}`), { code });
}

function folderNode(): FolderNode {
  return { kind: 'folder', entries: new Map(), flushed: new Map() };
}

function set(entries: Map<string, DiskNode>, name: string, node: DiskNode | null): void {
  if (node === null) entries.delete(name);
  else entries.set(name, node);
}

export class ForgetfulDisk {
  private pending: Change[] = [];
  private steps = 0;
  private files = 0;
  /** Called after every step that changed something or flushed it. */
  onStep: (() => void) | undefined;

  constructor(
    readonly model: DiskModel,
    private readonly root: FolderNode = folderNode(),
    private nowMs = Date.parse('2027-03-01T08:00:00.000Z'),
  ) {}

  /** As the real functions see it; `open` and the rest are theirs to call, and nothing else is there. */
  readonly fs = {
    open: async (path: string, flags: string | number, mode = 0o666) => this.open(path, flags, mode),
    rename: async (from: string, to: string) => {
      const node = this.at(from, false);
      const [source, target] = [this.parentOf(from), this.parentOf(to)];
      const standing = target.entries.get(posix.basename(to));
      if (standing?.kind === 'folder') throw fault('EISDIR', to);
      this.change([
        { folder: target, name: posix.basename(to), node },
        { folder: source, name: posix.basename(from), node: null },
      ]);
    },
    link: async (from: string, to: string) => {
      const folder = this.parentOf(to);
      if (folder.entries.has(posix.basename(to))) throw fault('EEXIST', to);
      this.change([{ folder, name: posix.basename(to), node: this.at(from, false) }]);
    },
    rm: async (path: string, options: { readonly force?: boolean } = {}) => {
      const folder = this.parentOf(path);
      const name = posix.basename(path);
      if (folder.entries.has(name)) this.change([{ folder, name, node: null }]);
      else if (options.force !== true) throw fault('ENOENT', path);
    },
    readdir: async (path: string, options: { readonly encoding?: string } = {}) => {
      const folder = this.at(path);
      if (folder.kind !== 'folder') throw fault('ENOTDIR', path);
      const names = [...folder.entries.keys()];
      return options.encoding === 'buffer' ? names.map((name) => Buffer.from(name)) : names;
    },
    readFile: async (path: string) => Buffer.from(this.fileAt(path).data),
    stat: async (path: string) => this.statOf(this.at(path)),
    lstat: async (path: string) => this.statOf(this.at(path, false)),
    realpath: async (path: string) => (this.at(path), this.follow(path)),
    readlink: async (path: string) => {
      const node = this.at(path, false);
      if (node.kind !== 'link') throw fault('EINVAL', path);
      return node.to;
    },
    mkdir: async (path: string) => {
      let first: string | undefined;
      let here = '';
      for (const name of posix.resolve(path).split('/').slice(1)) {
        const folder = here === '' ? this.root : this.at(here);
        if (folder.kind !== 'folder') throw fault('ENOTDIR', here);
        here = `${here}/${name}`;
        const node = folder.entries.get(name);
        if (node !== undefined && node.kind !== 'folder') throw fault('EEXIST', here);
        if (node !== undefined) continue;
        first ??= here;
        this.change([{ folder, name, node: folderNode() }]);
      }
      return first;
    },
    copyFile: async (from: string, to: string, mode = 0) => {
      const { data, mode: modeOfFile } = this.fileAt(from);
      const folder = this.parentOf(to);
      const isTaken = folder.entries.has(posix.basename(to));
      if (isTaken && (mode & constants.COPYFILE_EXCL) !== 0) throw fault('EEXIST', to);
      const node = { ...this.freshFile(modeOfFile), data: Buffer.from(data) };
      this.change([{ folder, name: posix.basename(to), node }]);
    },
  } as unknown as FileSystem;

  /**
   * What the disk may hold after its power was lost now: each a disk of its own, on which everything is flushed.
   * @param random numbers from 0 to below 1
   * @param count how many outcomes are drawn besides the extremes, where there are more than that
   */
  afterPowerLoss(random: () => number, count: number): readonly ForgetfulDisk[] {
    const changes = this.pending;
    const keeps: ((change: Change, index: number) => boolean)[] = [() => false, () => true];
    if (this.model === 'journalled') {
      for (const { step } of changes) keeps.push((change) => change.step <= step);
    } else if (changes.length <= 5) {
      for (let bits = 1; bits < 2 ** changes.length - 1; bits += 1)
        keeps.push((_change, index) => (bits & (1 << index)) !== 0);
    } else {
      for (const [at] of changes.entries())
        keeps.push(
          (_change, index) => index === at,
          (_change, index) => index !== at,
        );
      for (let drawn = 0; drawn < count; drawn += 1) keeps.push(() => random() < 0.5);
    }
    return keeps.flatMap((keep) => {
      const kept = changes.filter(keep);
      return (['old', 'new', 'any'] as const).map((data) => this.remains(kept, data, random));
    });
  }

  private remains(kept: readonly Change[], data: 'old' | 'new' | 'any', random: () => number): ForgetfulDisk {
    const copies = new Map<DiskNode, DiskNode>();
    const copyOf = (node: DiskNode): DiskNode => {
      const made = copies.get(node);
      if (made !== undefined) return made;
      if (node.kind === 'file') {
        const choice = data === 'old' ? 0 : data === 'new' ? 1 : Math.floor(random() * 4);
        const old = node.flushed ?? Buffer.alloc(0);
        const half = node.data.subarray(0, Math.floor(node.data.length / 2));
        const held =
          node.flushed === node.data ? node.data : [old, node.data, half, Buffer.alloc(0)][choice]!;
        const mtimeMs = choice === 1 ? node.mtimeMs : node.flushedMtimeMs;
        const copy: FileNode = { ...node, data: held, flushed: held, mtimeMs, flushedMtimeMs: mtimeMs };
        copies.set(node, copy);
        return copy;
      }
      if (node.kind === 'link') return node;
      const copy = folderNode();
      copies.set(node, copy);
      const entries = new Map(node.flushed);
      for (const { folder, name, node: to } of kept) if (folder === node) set(entries, name, to);
      for (const [name, child] of entries) copy.entries.set(name, copyOf(child));
      copy.flushed = new Map(copy.entries);
      return copy;
    };
    return new ForgetfulDisk(this.model, copyOf(this.root) as FolderNode, this.nowMs);
  }

  /** The text of every file in a folder, by name; none where there is no such folder. */
  texts(path: string): ReadonlyMap<string, string> {
    try {
      const folder = this.at(path);
      const entries = folder.kind === 'folder' ? [...folder.entries] : [];
      return new Map(
        entries.flatMap(([name, node]) => (node.kind === 'file' ? [[name, node.data.toString('utf8')]] : [])),
      );
    } catch {
      return new Map();
    }
  }

  /** A text put there by another program, and flushed. */
  put(path: string, text: string): void {
    const data = Buffer.from(text);
    this.nowMs += 1;
    const node = { ...this.freshFile(0o644), data, flushed: data, flushedMtimeMs: this.nowMs };
    const folder = this.parentOf(path);
    folder.entries.set(posix.basename(path), node);
    folder.flushed.set(posix.basename(path), node);
  }

  private freshFile(mode: number): FileNode {
    const { nowMs } = this;
    this.files += 1;
    return {
      kind: 'file',
      ino: this.files,
      data: Buffer.alloc(0),
      flushed: null,
      mode,
      mtimeMs: nowMs,
      flushedMtimeMs: nowMs,
    };
  }

  private change(changes: readonly Omit<Change, 'step'>[]): void {
    this.steps += 1;
    this.nowMs += 1;
    for (const change of changes) {
      set(change.folder.entries, change.name, change.node);
      this.pending.push({ ...change, step: this.steps });
    }
    this.onStep?.();
  }

  private flush(node: FileNode | FolderNode): void {
    if (node.kind === 'file') {
      node.flushed = node.data;
      node.flushedMtimeMs = node.mtimeMs;
    }
    const isNow = (change: Change): boolean => this.model === 'journalled' || change.folder === node;
    for (const change of this.pending.filter(isNow)) set(change.folder.flushed, change.name, change.node);
    this.pending = this.pending.filter((change) => !isNow(change));
    this.onStep?.();
  }

  private open(path: string, flags: string | number, mode: number): unknown {
    if (flags === 'wx') {
      const folder = this.parentOf(path);
      const name = posix.basename(path);
      if (folder.entries.has(name)) throw fault('EEXIST', path);
      this.change([{ folder, name, node: this.freshFile(mode & 0o755) }]);
    }
    const node = this.at(path) as FileNode | FolderNode;
    let position = 0;
    return {
      writeFile: async (content: string | Uint8Array) => {
        (node as FileNode).data = Buffer.from(content as Uint8Array);
        this.onStep?.();
      },
      readFile: async () => Buffer.from((node as FileNode).data),
      read: async (buffer: Buffer, offset: number, length: number) => {
        const bytesRead = (node as FileNode).data.copy(buffer, offset, position, position + length);
        position += bytesRead;
        return { bytesRead, buffer };
      },
      utimes: async (_accessS: number, changeS: number) => {
        (node as FileNode).mtimeMs = Math.floor(changeS * 1000);
      },
      chmod: async (to: number) => {
        (node as FileNode).mode = to;
      },
      chown: async () => {},
      stat: async () => this.statOf(node),
      sync: async () => this.flush(node),
      close: async () => {},
    };
  }

  private statOf(node: DiskNode): object {
    const isFile = node.kind === 'file';
    return {
      isFile: () => isFile,
      isDirectory: () => node.kind === 'folder',
      isSymbolicLink: () => node.kind === 'link',
      size: isFile ? node.data.length : 0,
      mode: isFile ? node.mode : 0o755,
      ino: isFile ? node.ino : 0,
      mtimeMs: isFile ? node.mtimeMs : 0,
      ctimeMs: isFile ? node.mtimeMs : 0,
      uid: 0,
      gid: 0,
    };
  }

  private follow(path: string): string {
    const node = this.at(path, false);
    return node.kind === 'link' ? this.follow(posix.resolve(posix.dirname(path), node.to)) : path;
  }

  private at(path: string, follows = true): DiskNode {
    let node: DiskNode = this.root;
    for (const name of posix.resolve(path).split('/').slice(1).filter(Boolean)) {
      if (node.kind !== 'folder') throw fault('ENOTDIR', path);
      const next: DiskNode | undefined = node.entries.get(name);
      if (next === undefined) throw fault('ENOENT', path);
      node = next;
    }
    if (node.kind === 'link' && follows) return this.at(posix.resolve(posix.dirname(path), node.to));
    return node;
  }

  private fileAt(path: string): FileNode {
    const node = this.at(path);
    if (node.kind !== 'file') throw fault('EISDIR', path);
    return node;
  }

  private parentOf(path: string): FolderNode {
    const folder = this.at(posix.dirname(path));
    if (folder.kind !== 'folder') throw fault('ENOTDIR', path);
    return folder;
  }
}
