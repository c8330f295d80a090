import type { ReactNode } from 'react';
import { unreachable } from '../../core/result';
import { closeOverlay } from '../actions/view';
import { Dialog } from '../parts/dialog';
import { lazily, type StandIn } from '../parts/lazily';
import { useDesk, type Overlay } from '../store/store';

const STAND_IN: StandIn = {
  waiting: null,
  failed: ({ what, mend }, again) => (
    <Dialog
      title="Not loaded"
      onClose={closeOverlay}
      foot={
        <button type="button" className="button first" onClick={again}>
          Try again
        </button>
      }
    >
      <p>
        {what} {mend}
      </p>
    </Dialog>
  ),
};

/** Formulas and their sources are a good part of core; they are loaded when somebody asks. */
const WorkingsSheet = lazily(
  () => import('../places/days/workings-sheet'),
  (part) => part.WorkingsSheet,
  STAND_IN,
);
const SiteListSheet = lazily(
  () => import('../places/sites/site-list-sheet'),
  (part) => part.SiteListSheet,
  STAND_IN,
);
const StartingSheet = lazily(
  () => import('../places/starting/starting-sheet'),
  (part) => part.StartingSheet,
  STAND_IN,
);

const LessonSheet = lazily(
  () => import('../places/lesson/lesson-sheet'),
  (part) => part.LessonSheet,
  STAND_IN,
);
const MendSheet = lazily(
  () => import('../places/mending/mend-sheet'),
  (part) => part.MendSheet,
  STAND_IN,
);

/** Asked for once the window stands, so that it is there at the first press. */
const Palette = lazily(
  () => import('./palette'),
  (part) => part.Palette,
  STAND_IN,
);
const SturdySheet = lazily(
  () => import('../places/sturdiness/sturdy-sheet'),
  (part) => part.SturdySheet,
  STAND_IN,
);

/** Asked for once, at the first start: every other one has it without. */
const Welcome = lazily(
  () => import('./welcome'),
  (part) => part.Welcome,
  STAND_IN,
);

const GuideSheet = lazily(
  () => import('./guide/guide-sheet'),
  (part) => part.GuideSheet,
  STAND_IN,
);

const lateSheets = () => import('./late-sheets');
const Changed = lazily(lateSheets, (part) => part.Changed, STAND_IN);
const UnsavedEdits = lazily(lateSheets, (part) => part.UnsavedEdits, STAND_IN);
const About = lazily(lateSheets, (part) => part.About, STAND_IN);
const Cautions = lazily(lateSheets, (part) => part.Cautions, STAND_IN);
const Troubles = lazily(lateSheets, (part) => part.TroublesSheet, STAND_IN);
const Library = lazily(lateSheets, (part) => part.Library, STAND_IN);
const Versions = lazily(lateSheets, (part) => part.Versions, STAND_IN);
const SettingsSheet = lazily(lateSheets, (part) => part.SettingsSheet, STAND_IN);
const Shortcuts = lazily(lateSheets, (part) => part.Shortcuts, STAND_IN);
const TripDetails = lazily(lateSheets, (part) => part.TripDetails, STAND_IN);

const RecordedSheet = lazily(
  () => import('../places/days/recorded/recorded-sheet'),
  (part) => part.RecordedSheet,
  STAND_IN,
);
const NewSiteSheet = lazily(
  () => import('../places/days/sheets/new-site-sheet'),
  (part) => part.NewSiteSheet,
  STAND_IN,
);
const SwapSheet = lazily(
  () => import('../places/days/sheets/swap-sheet'),
  (part) => part.SwapSheet,
  STAND_IN,
);

/** What lies over the window; at most one, and the cautions of the first start before any other. */
export function Overlays(): ReactNode {
  const overlay = useDesk((state) => state.overlay);
  const isFirstStart = useDesk((state) => state.ready && !state.settings.cautionsAccepted);
  return (
    <>
      {overlay ? <Shown overlay={overlay} /> : null}
      {isFirstStart ? <Welcome /> : null}
    </>
  );
}

function Shown({ overlay }: { readonly overlay: Overlay }): ReactNode {
  switch (overlay.kind) {
    case 'palette':
      return <Palette />;
    case 'shortcuts':
      return <Shortcuts />;
    case 'library':
      return <Library />;
    case 'versions':
      return <Versions token={overlay.token} title={overlay.title} />;
    case 'cautions':
      return <Cautions />;
    case 'mend':
      return <MendSheet key={overlay.diveId} diveId={overlay.diveId} />;
    case 'sturdy':
      return <SturdySheet />;
    case 'lesson':
      return <LessonSheet what={overlay.what} />;
    case 'workings':
      return <WorkingsSheet figure={overlay.figure} diveId={overlay.diveId} diverId={overlay.diverId} />;
    case 'trip':
      return <TripDetails />;
    case 'site-list':
      return <SiteListSheet />;
    case 'recorded':
      return <RecordedSheet />;
    case 'new-site':
      return <NewSiteSheet diveIds={overlay.diveIds} />;
    case 'swap':
      return <SwapSheet diveId={overlay.diveId} />;
    case 'starting':
      return <StartingSheet />;
    case 'settings':
      return <SettingsSheet />;
    case 'guide':
      return <GuideSheet />;
    case 'about':
      return <About />;
    case 'changed':
      return <Changed token={overlay.token} removed={overlay.removed} />;
    case 'unsaved':
      return <UnsavedEdits token={overlay.token} text={overlay.text} />;
    case 'troubles':
      return <Troubles title={overlay.title} lines={overlay.lines} />;
    default:
      return unreachable(overlay);
  }
}
