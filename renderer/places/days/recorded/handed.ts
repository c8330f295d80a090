/** A file of recorded dives that was handed to the window before its sheet was open. */
interface HandedFile {
  readonly name: string;
  readonly text: string;
}

let handed: HandedFile | null = null;

export function handRecorded(file: HandedFile): void {
  handed = file;
}

/** The file that waits, once. */
export function takeHanded(): HandedFile | null {
  const file = handed;
  handed = null;
  return file;
}
