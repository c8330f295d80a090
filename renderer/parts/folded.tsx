import { Fragment, useState, type ReactNode } from 'react';

/**
 * What is out of the way until asked for. It is made when it is opened: closed, it costs its one line.
 * @param about what it is about, by its id: about something else it is closed, or open, as that has it
 * @param opens that it is to stand open, from when this is first so; closed by hand it stays closed
 */
export function Folded(props: {
  readonly summary: string;
  readonly opens?: boolean;
  readonly about?: string;
  readonly className?: string | undefined;
  readonly children: () => ReactNode;
}): ReactNode {
  const { summary, opens = false, about = '', className, children } = props;
  const [held, hold] = useState({ about, isOpen: opens, hasOpened: opens });
  if (held.about !== about) hold({ about, isOpen: opens, hasOpened: opens });
  else if (opens && !held.hasOpened) hold({ about, isOpen: true, hasOpened: true });
  const { isOpen } = held;
  return (
    <details open={isOpen} className={className}>
      <summary
        onClick={(event) => {
          event.preventDefault();
          hold({ ...held, isOpen: !isOpen });
        }}
      >
        {summary}
      </summary>
      {isOpen ? <Fragment key={about}>{children()}</Fragment> : null}
    </details>
  );
}
