/**
 * What the renderer may ask of the machine: types only. Two hosts implement it, the desktop (through the
 * preload bridge) and the browser; `test/contract` holds both to one suite. The renderer never names a
 * path: the host shows the dialog, keeps the place and hands out a token.
 */

/** Stands for a place only the host knows: a trip in the library or a file somewhere else. */
export type TripToken = string;

export interface TripSummary {
  readonly token: TripToken;
  readonly title: string;
  /** Where it lives: the library, or a file outside it (desktop only). */
  readonly home: 'library' | 'file';
  /** ISO date-time of the last save, in UTC. */
  readonly savedAt: string;
  /** Set where the text could not be read as a trip: it is kept aside untouched. */
  readonly unreadable?: string;
}

export interface StoredTrip {
  readonly token: TripToken;
  readonly home: 'library' | 'file';
  readonly text: string;
  readonly savedAt: string;
  /**
   * Set where the stored text is none that Carryover saved: someone, or a failing disk, changed it since.
   * The window says so; the last saves are among the versions.
   */
  readonly changedOutside?: true;
}

export interface TripVersion {
  readonly version: string;
  readonly savedAt: string;
  /** Set where something lies among the versions that is none: why it is passed over. */
  readonly unreadable?: string;
}

/** Edits of a trip that no save has taken up yet, noted down so that a kill costs none but the last. */
export interface Unsaved {
  readonly text: string;
  /** The save that the edits stand on; null for a trip never saved. */
  readonly savedAt: string | null;
}

/** What failed outside the window, in the shape every door prints. */
export interface HostTrouble {
  readonly kind: 'not-found' | 'not-readable' | 'not-writable' | 'full' | 'changed' | 'refused' | 'too-large';
  readonly what: string;
  readonly where: string;
  readonly mend: string;
}

export type HostResult<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly trouble: HostTrouble };

export interface Settings {
  readonly units: 'metric' | 'imperial';
  readonly clock: '24h' | '12h';
  /** The order of day, month and year where a date is typed. */
  readonly dates: 'dmy' | 'mdy' | 'ymd';
  readonly look: 'light' | 'cabin' | 'system';
  readonly textScale: number;
  readonly place: 'days' | 'sites' | 'mixes' | 'party' | 'slates';
  readonly lastTrip: TripToken | null;
  readonly cautionsAccepted: boolean;
  readonly paper: string;
  /** What parts the cells of a table (CSV): commas, or semicolons and then a comma before decimals; as the system has it. */
  readonly tables: 'system' | 'commas' | 'semicolons';
  /** What a step of each move costs when a trip is mended, in points; null: as usual. */
  readonly mendCosts: MendCosts | null;
}

/** Points of one step of each move. */
export type MendCosts = Readonly<
  Record<'later' | 'shallower' | 'shorter' | 'mix' | 'leaveOut' | 'drop', number>
>;

export const DEFAULT_SETTINGS: Settings = {
  units: 'metric',
  clock: '24h',
  dates: 'dmy',
  look: 'system',
  textScale: 1,
  place: 'days',
  lastTrip: null,
  cautionsAccepted: false,
  paper: 'A6',
  tables: 'system',
  mendCosts: null,
};

export interface TripChange {
  readonly token: TripToken;
  readonly kind: 'changed' | 'removed';
}

/** One command of the registry, as the menu of the desktop shows it. */
export interface MenuCommand {
  readonly id: string;
  readonly label: string;
  readonly group: 'Trip' | 'Edit' | 'Dive' | 'Places' | 'View' | 'Help';
  /** Keys as the registry writes them, e.g. "Mod+Shift+Z"; Mod is Command on a Mac, Control elsewhere. */
  readonly keys?: string;
  readonly enabled: boolean;
}

/** A file as the platform hands it to the window; only the host may know where it lies. */
export interface DroppedFile {
  readonly name: string;
}

export interface TripReport {
  readonly token: TripToken | null;
  readonly isEdited: boolean;
}

/** A sheet as it goes into the printer, upright or lying as its sides say. */
export interface PrintPaper {
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface AboutHost {
  readonly app: string;
  readonly versions: readonly { readonly name: string; readonly version: string }[];
}

export interface Host {
  readonly kind: 'desktop' | 'browser';
  /** Differences a caller may ask about, instead of guessing from `kind`. */
  readonly supports: {
    readonly watch: boolean;
    readonly filesOutsideLibrary: boolean;
    /** `printPages` opens a dialog of the system's; where not, pages are saved and printed from elsewhere. */
    readonly systemPrint: boolean;
    /** `showSaved` has a file manager to show in; where not, the document went where the browser puts such. */
    readonly showSaved: boolean;
  };

  /** The library and the files opened from elsewhere this session, newest first. */
  listTrips(): Promise<HostResult<readonly TripSummary[]>>;
  readTrip(token: TripToken): Promise<HostResult<StoredTrip>>;
  /**
   * Saves atomically; `token` null makes a new trip in the library. `expectedSavedAt` is the save the
   * caller last knew: where the stored one is another, nothing is written and the trouble is `changed`;
   * null writes whatever stands there.
   */
  writeTrip(
    token: TripToken | null,
    text: string,
    title: string,
    expectedSavedAt: string | null,
  ): Promise<HostResult<StoredTrip>>;
  /** Moves a library trip to the host's bin folder; nothing is destroyed. */
  removeTrip(token: TripToken): Promise<HostResult<null>>;
  /** Past saves, newest first: those of the last hour, one of each hour of the day before, one of each day before that. */
  listVersions(token: TripToken): Promise<HostResult<readonly TripVersion[]>>;
  readVersion(token: TripToken, version: string): Promise<HostResult<string>>;
  /**
   * Notes down what is not saved yet, in place of what was noted of that trip before; null stands for the trip that
   * has no token yet. Quick rather than flushed: it outlasts a kill, and perhaps not a loss of power. `isLast` where
   * the window goes and nothing later may run.
   */
  keepUnsaved(token: TripToken | null, unsaved: Unsaved, isLast: boolean): Promise<HostResult<null>>;
  /** What was noted down of a trip and never saved, or null. */
  readUnsaved(token: TripToken | null): Promise<HostResult<Unsaved | null>>;
  /** Lets go of it: it was saved, or nobody wants it. */
  dropUnsaved(token: TripToken | null): Promise<HostResult<null>>;
  /** Calls back when a trip changes that this window did not write; returns how to stop. */
  watchTrips(listener: (change: TripChange) => void): () => void;

  /** Lets the user choose a trip file; null when they think better of it. */
  openTrip(): Promise<HostResult<StoredTrip | null>>;
  /** Writes a copy where the user says; null when they think better of it. */
  saveTripAs(text: string, suggestedName: string): Promise<HostResult<StoredTrip | null>>;
  /** Saves a document (PDF, CSV) where the user says; gives the name it has there, null when they think better of it. */
  saveDocument(
    bytes: Uint8Array,
    suggestedName: string,
    mediaType: string,
  ): Promise<HostResult<string | null>>;
  /** Shows the document that was saved last in the system's file manager. */
  showSaved(): Promise<HostResult<null>>;
  /**
   * Opens the system's print dialog on the pages that the window holds ready for print, each as large as the
   * paper. Resolves once the dialog is done with, also where the user thought better of it.
   */
  printPages(paper: PrintPaper): Promise<HostResult<null>>;
  /** Lets the user pick a text file to import (sites as rows, positions); null when they think better of it. */
  openText(): Promise<HostResult<{ readonly name: string; readonly text: string } | null>>;

  loadSettings(): Promise<HostResult<Settings>>;
  saveSettings(patch: Partial<Settings>): Promise<HostResult<null>>;

  /** Tells the host which commands there are, again whenever one is enabled or disabled. */
  offerCommands(commands: readonly MenuCommand[]): void;
  /** Menu commands and files opened from outside, by the registry's command id. */
  onCommand(listener: (commandId: string) => void): () => void;
  onOpenTrip(listener: (trip: StoredTrip) => void): () => void;
  /** Called by the host before it closes; the window answers once nothing is unsaved. */
  onBeforeClose(saveAll: () => Promise<void>): () => void;
  /**
   * Opens a trip file that was let go over the window: on the desktop it is then the open file, in a browser a copy of it.
   * `text` is what the window read of it.
   */
  openDropped(file: DroppedFile, text: string): Promise<HostResult<StoredTrip>>;
  /** Tells the host which trip is open and whether a save is behind, for what the system marks a window with. */
  reportTrip(report: TripReport): void;
  /** How much of long work is done, 0 to 1, for the bar of the system; null: none is under way. */
  reportWork(share: number | null): void;
  /** Asks, then opens one of the cited sources in the user's browser. */
  openSource(url: string): Promise<HostResult<null>>;
  about(): Promise<AboutHost>;
}

/** What the preload exposes as `window.carryover`: the Host without what the window itself can tell. */
export type Bridge = Omit<Host, 'kind' | 'supports'>;
