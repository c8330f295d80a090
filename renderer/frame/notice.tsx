import type { ReactNode } from 'react';
import { dayToLog, showEvening } from '../actions/evening';
import { undoStep } from '../actions/history';
import { showSaved } from '../actions/save-document';
import { say } from '../store/notice';
import { desk, useDesk } from '../store/store';
import styles from './notice.module.css';

/** So many lines are told: a notice lies above the work, and must not take its place. */
const TOLD = 4;

/** What was refused or done, where no field stands to say it beside. */
export function NoticeLine(): ReactNode {
  const notice = useDesk((state) => state.notice);
  return (
    <div className={styles.place} role={notice?.tone === 'refused' ? 'alert' : 'status'}>
      {notice ? (
        <div className={styles.notice} data-tone={notice.tone}>
          <div>
            {notice.lines.slice(0, TOLD).map((line, at) => (
              <p key={`${at} ${line.where}`}>
                {line.what} {line.mend}
              </p>
            ))}
            {notice.lines.length > TOLD ? <p>And {notice.lines.length - TOLD} more.</p> : null}
          </div>
          <div className={styles.buttons}>
            {notice.canCompare ? (
              <button
                type="button"
                className="plain"
                onClick={() =>
                  showEvening({ date: dayToLog(desk.getState()), step: 'changed', sinceStep: true })
                }
              >
                What changed
              </button>
            ) : null}
            {notice.canUndo ? (
              <button type="button" className="plain" onClick={undoStep}>
                Bring it back
              </button>
            ) : null}
            {notice.canShow ? (
              <button type="button" className="plain" onClick={() => void showSaved()}>
                Show in folder
              </button>
            ) : null}
            <button type="button" className="plain" onClick={() => say(null)}>
              Dismiss
            </button>
          </div>
        </div>
      ) : null}
    </div>
  );
}
