/** Lays the bridge: the only thing a page of this app can reach outside itself, one function a question. */
import { contextBridge, ipcRenderer, webUtils } from 'electron';
import type { Bridge } from '../core/host';
import {
  callChannel,
  noteChannel,
  type CallAnswer,
  type CallArguments,
  type CallName,
  type NoteName,
  type Notes,
} from './channels';

function call<Name extends CallName>(
  name: Name,
): (...args: CallArguments<Name>) => Promise<CallAnswer<Name>> {
  return (...args) => ipcRenderer.invoke(callChannel(name), ...args) as Promise<CallAnswer<Name>>;
}

/** Listens for a note; the page never sees the event, which would hand it the sender. */
function onNote<Name extends NoteName>(name: Name, listener: (note: Notes[Name]) => void): () => void {
  const onMessage = (_event: unknown, note: Notes[Name]): void => listener(note);
  ipcRenderer.on(noteChannel(name), onMessage);
  return () => void ipcRenderer.off(noteChannel(name), onMessage);
}

const bridge = {
  listTrips: call('listTrips'),
  readTrip: call('readTrip'),
  writeTrip: call('writeTrip'),
  removeTrip: call('removeTrip'),
  listVersions: call('listVersions'),
  readVersion: call('readVersion'),
  keepUnsaved: call('keepUnsaved'),
  readUnsaved: call('readUnsaved'),
  dropUnsaved: call('dropUnsaved'),
  openTrip: call('openTrip'),
  saveTripAs: call('saveTripAs'),
  saveDocument: call('saveDocument'),
  showSaved: call('showSaved'),
  printPages: call('printPages'),
  openText: call('openText'),
  loadSettings: call('loadSettings'),
  saveSettings: call('saveSettings'),
  openSource: call('openSource'),
  about: call('about'),
  openDropped: (file) => call('openDroppedAt')(webUtils.getPathForFile(file as File)),
  reportTrip: (report) => void call('reportTrip')(report),
  reportWork: (share) => void call('reportWork')(share),
  watchTrips: (listener) => onNote('tripChanged', listener),
  offerCommands: (commands) => void call('offerCommands')(commands),
  onCommand: (listener) => onNote('command', listener),
  onOpenTrip: (listener) => {
    const stop = onNote('openTrip', listener);
    void call('awaitTrips')();
    return stop;
  },
  onBeforeClose: (saveAll) => {
    const stop = onNote('beforeClose', () => {
      saveAll().then(
        () => call('closeAnswered')(null),
        (error: unknown) => call('closeAnswered')(error instanceof Error ? error.message : String(error)),
      );
    });
    void call('guardClose')(true);
    return () => {
      stop();
      void call('guardClose')(false);
    };
  },
} satisfies Bridge;

contextBridge.exposeInMainWorld('carryover', bridge);
