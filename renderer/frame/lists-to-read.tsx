/** Sheets that are lists to read: the cautions of the trip, and what is wrong with a file. */
import type { ReactNode } from 'react';
import { closeOverlay } from '../actions/view';
import { CautionList } from '../parts/caution-list';
import { CommandButton } from '../parts/command-button';
import { Dialog } from '../parts/dialog';
import type { NoticeLine } from '../store/store';
import { Troubles } from './troubles';

export function Cautions(): ReactNode {
  return (
    <Dialog
      title="Cautions of the trip"
      width="wide"
      onClose={closeOverlay}
      foot={<CommandButton id="trip.mend" className="button" />}
    >
      <CautionList />
    </Dialog>
  );
}

export function TroublesSheet(props: {
  readonly title: string;
  readonly lines: readonly NoticeLine[];
}): ReactNode {
  return (
    <Dialog title={props.title} onClose={closeOverlay}>
      <Troubles lines={props.lines} />
      <p className="soft">The trip on screen is as it was.</p>
    </Dialog>
  );
}
