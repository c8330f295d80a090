import type { ReactNode } from 'react';
import { say } from '../store/notice';
import { useDesk } from '../store/store';

/** What was refused or done, where no field stands to say it beside. */
export function NoticeLine(): ReactNode {
  const notice = useDesk((state) => state.notice);
  return (
    <div className="notice-place" role={notice?.tone === 'refused' ? 'alert' : 'status'}>
      {notice ? (
        <div className={`notice ${notice.tone}`}>
          <div>
            {notice.lines.map((line) => (
              <p key={`${line.where}${line.what}`}>
                {line.what} {line.mend}
              </p>
            ))}
          </div>
          <button type="button" className="plain" onClick={() => say(null)}>
            Dismiss
          </button>
        </div>
      ) : null}
    </div>
  );
}
