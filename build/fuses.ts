/**
 * The fuses: switches in the runtime's own binary, flipped before it is signed. Which there are is read from the
 * runtime that is packed; each must have been decided here, by its name.
 */
import { join } from 'node:path';
import { flipFuses, FuseState, FuseV1Options, FuseVersion, getCurrentFuseWire } from '@electron/fuses';
import type { AfterPackContext } from 'electron-builder';

export type FuseName = keyof typeof FuseV1Options;

/** Whether each is on. Where the list of names learns another, this stops compiling until somebody has decided. */
export const FUSES: Readonly<Record<FuseName, boolean>> = {
  // The app is an app: nobody may run it as plain Node, feed it options, or attach an inspector.
  RunAsNode: false,
  EnableNodeOptionsEnvironmentVariable: false,
  EnableNodeCliInspectArguments: false,
  // Only the archive that was packed is run, and only unchanged (macOS and Windows check that).
  OnlyLoadAppFromAsar: true,
  EnableEmbeddedAsarIntegrityValidation: true,
  // Pages come by the app's own scheme; files need no privileges.
  GrantFileProtocolExtraPrivileges: false,
  // The app keeps no cookies; should one ever be set, it is not readable on the disk.
  EnableCookieEncryption: true,
  // There is no snapshot of its own for the main process.
  LoadBrowserProcessSpecificV8Snapshot: false,
  // As the runtime ships it: memory of WebAssembly is guarded by the processor rather than by code.
  WasmTrapHandlers: true,
};

/** A fuse of a runtime: its place on the wire, its name where it has one, and what is found there. */
interface Fuse {
  readonly index: number;
  readonly name: FuseName | null;
  readonly state: FuseState;
}

async function fusesOf(binary: string): Promise<readonly Fuse[]> {
  const { version: _, ...wire } = await getCurrentFuseWire(binary);
  return Object.entries(wire)
    .filter(([key]) => /^\d+$/.test(key))
    .map(([key, state]) => {
      const name = FuseV1Options[Number(key)] as FuseName | undefined;
      return { index: Number(key), name: name ?? null, state: state as unknown as FuseState };
    });
}

function unnamed(fuses: readonly Fuse[]): readonly string[] {
  return fuses
    .filter(({ name }) => name === null)
    .map(({ index }) => `The runtime has a fuse at place ${index} that nobody has named or decided.`);
}

/** What is wrong with the fuses of a packed binary, a line each: one that is not as decided, or that nobody decided. */
export async function fuseFaults(binary: string): Promise<readonly string[]> {
  let fuses: readonly Fuse[];
  try {
    fuses = await fusesOf(binary);
  } catch (error) {
    return [
      `The fuses of ${binary} cannot be read: ${error instanceof Error ? error.message : String(error)}`,
    ];
  }
  // One that the runtime has taken out of service does nothing, however it stands.
  const wrong = fuses
    .filter(({ name, state }) => name !== null && state !== FuseState.REMOVED && state !== wanted(name))
    .map(({ name }) => `The fuse ${name} is not ${FUSES[name!] ? 'on' : 'off'}.`);
  return [...wrong, ...unnamed(fuses)];
}

function wanted(name: FuseName): FuseState {
  return FUSES[name] ? FuseState.ENABLE : FuseState.DISABLE;
}

/** Flips every fuse of a binary as decided; throws, and flips none, where it has one that nobody decided. */
export async function flipDecided(binary: string): Promise<void> {
  const fuses = await fusesOf(binary);
  const [fault] = unnamed(fuses);
  if (fault !== undefined)
    throw new Error(`${fault} Name it in build/fuses.ts; @electron/fuses may be too old.`);
  const decided = fuses.flatMap(({ index, name, state }) =>
    name === null || state === FuseState.REMOVED ? [] : [[index, FUSES[name]] as const],
  );
  await flipFuses(binary, {
    version: FuseVersion.V1,
    // Flipping breaks the signature that Apple's chips ask for; it is made anew where nobody signs.
    resetAdHocDarwinSignature: true,
    ...Object.fromEntries(decided),
  });
}

/** As the packager's step between packing and signing. */
export async function flipPacked({
  appOutDir,
  electronPlatformName,
  packager,
}: AfterPackContext): Promise<void> {
  const { productFilename } = packager.appInfo;
  const names: Readonly<Record<string, string>> = {
    darwin: `${productFilename}.app`,
    win32: `${productFilename}.exe`,
  };
  await flipDecided(join(appOutDir, names[electronPlatformName] ?? LINUX_EXECUTABLE));
}

export const LINUX_EXECUTABLE = 'carryover';
