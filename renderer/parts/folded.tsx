import { useState, type ReactNode } from 'react';

/**
 * What is out of the way until asked for. It is made when it is opened: closed, it costs its one line.
 * @param opens that it is to stand open, from when this is first so; closed by hand it stays closed
 */
export function Folded(props: {
  readonly summary: string;
  readonly opens?: boolean;
  readonly children: () => ReactNode;
}): ReactNode {
  const { summary, opens = false, children } = props;
  const [isOpen, setIsOpen] = useState(opens);
  const [hasOpened, setHasOpened] = useState(opens);
  if (opens && !hasOpened) {
    setHasOpened(true);
    setIsOpen(true);
  }
  return (
    <details open={isOpen}>
      <summary
        onClick={(event) => {
          event.preventDefault();
          setIsOpen(!isOpen);
        }}
      >
        {summary}
      </summary>
      {isOpen ? children() : null}
    </details>
  );
}
