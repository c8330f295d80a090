import { useLayoutEffect, useRef, useState, type KeyboardEvent, type ReactNode } from 'react';

/** Where a key goes that ends the typing. */
export type Ending = 'down' | 'up' | 'next' | 'before' | 'left' | 'right' | 'stay';

/**
 * What is typed into a cell. Begun by a letter, the arrows end it and go on, as they would have; begun with F2 they
 * move within the text.
 */
export function CellInput(props: {
  readonly label: string;
  readonly text: string;
  readonly isBegunByLetter: boolean;
  readonly isRefused: boolean;
  readonly options?: readonly string[];
  readonly listId: string;
  /** Takes the text; false where it was refused and stays. */
  readonly finish: (text: string, ending: Ending | null) => boolean;
  readonly drop: () => void;
}): ReactNode {
  const { isBegunByLetter, finish, drop, options, listId } = props;
  const [text, setText] = useState(props.text);
  const field = useRef<HTMLInputElement>(null);
  const isOver = useRef(false);
  useLayoutEffect(() => {
    const { current } = field;
    current?.focus();
    if (isBegunByLetter) current?.setSelectionRange(current.value.length, current.value.length);
    else current?.select();
  }, [isBegunByLetter]);

  const end = (ending: Ending | null): void => {
    if (isOver.current) return;
    isOver.current = true;
    if (!finish(text, ending)) isOver.current = false;
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    if (event.nativeEvent.isComposing) return;
    const ending = endingOf(event, isBegunByLetter && !options);
    if (event.key === 'Escape') {
      event.stopPropagation();
      isOver.current = true;
      drop();
    } else if (ending === null) {
      return;
    } else {
      end(ending);
    }
    event.preventDefault();
  };
  return (
    <>
      <input
        ref={field}
        type="text"
        aria-label={props.label}
        aria-invalid={props.isRefused}
        autoComplete="off"
        spellCheck={false}
        value={text}
        {...(options ? { list: listId } : {})}
        onChange={(event) => setText(event.target.value)}
        onKeyDown={onKeyDown}
        onBlur={() => end(null)}
      />
      {options ? (
        <datalist id={listId}>
          {options.map((option) => (
            <option key={option} value={option} />
          ))}
        </datalist>
      ) : null}
    </>
  );
}

function endingOf(event: KeyboardEvent, byArrows: boolean): Ending | null {
  if (event.key === 'Enter') return event.shiftKey ? 'up' : 'down';
  if (event.key === 'Tab') return event.shiftKey ? 'before' : 'next';
  if (!byArrows || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) return null;
  const arrows: Readonly<Record<string, Ending>> = {
    ArrowDown: 'down',
    ArrowUp: 'up',
    ArrowLeft: 'left',
    ArrowRight: 'right',
  };
  return arrows[event.key] ?? null;
}
