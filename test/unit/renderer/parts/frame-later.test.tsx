// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { FrameLater, useFrameLater } from '../../../../renderer/parts/frame-later';
import { blankTrip } from '../../../../renderer/store/blank-trip';
import { desk, freshDesk, useDesk } from '../../../../renderer/store/store';

interface Value {
  readonly page: string | null;
  readonly text: string;
}

function Late({ value }: { readonly value: Value }) {
  return <p>{useFrameLater(value, value.page).text}</p>;
}

let frames: FrameRequestCallback[] = [];

/** Draws a frame; what is put off follows by a message. */
function frame(): void {
  const due = frames;
  frames = [];
  act(() => {
    for (const each of due) each(0);
  });
}

function shown(): string {
  return screen.getByRole('paragraph').textContent;
}

let isHidden = false;

beforeEach(() => {
  frames = [];
  isHidden = false;
  vi.stubGlobal('requestAnimationFrame', (run: FrameRequestCallback) => frames.push(run));
  vi.spyOn(document, 'hidden', 'get').mockImplementation(() => isHidden);
});

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

it('shows a value once the frame of the rest is drawn', async () => {
  const { rerender } = render(<Late value={{ page: 'a', text: 'one' }} />);
  expect(shown()).toBe('one');
  rerender(<Late value={{ page: 'a', text: 'two' }} />);
  expect(shown()).toBe('one');
  frame();
  await screen.findByText('two');
  expect(frames).toEqual([]);
});

it('takes the newest where values follow faster than frames, and puts it off no further', async () => {
  const { rerender } = render(<Late value={{ page: 'a', text: 'one' }} />);
  for (const text of ['two', 'three', 'four']) rerender(<Late value={{ page: 'a', text }} />);
  expect(frames).toHaveLength(1);
  frame();
  await screen.findByText('four');
});

it('shows at once what may not wait, and goes on from there', async () => {
  const { rerender } = render(<Late value={{ page: 'a', text: 'one' }} />);
  rerender(<Late value={{ page: 'a', text: 'two' }} />);
  rerender(<Late value={{ page: 'b', text: 'three' }} />);
  expect(shown()).toBe('three');
  rerender(<Late value={{ page: 'b', text: 'four' }} />);
  expect(shown()).toBe('three');
  frame();
  await screen.findByText('four');
});

it('shows at once what is never to wait', () => {
  const { rerender } = render(<Late value={{ page: null, text: 'one' }} />);
  rerender(<Late value={{ page: null, text: 'two' }} />);
  expect(shown()).toBe('two');
});

it('waits for no frame where nobody sees any', () => {
  isHidden = true;
  const { rerender } = render(<Late value={{ page: 'a', text: 'one' }} />);
  rerender(<Late value={{ page: 'a', text: 'two' }} />);
  expect(shown()).toBe('two');
  expect(frames).toEqual([]);
});

describe('parts of the desk that are drawn a frame later', () => {
  let isAtOnce = false;

  function Title() {
    return <p>{useDesk(({ trip }) => trip.title)}</p>;
  }

  function Both() {
    return (
      <>
        <h1>{useDesk(({ trip }) => trip.title)}</h1>
        <FrameLater isAtOnce={() => isAtOnce}>
          <Title />
        </FrameLater>
      </>
    );
  }

  function rename(title: string): void {
    act(() => desk.setState({ trip: { ...blankTrip(), title } }));
  }

  beforeEach(() => {
    isAtOnce = false;
    desk.setState(freshDesk({ ...blankTrip(), title: 'one' }), true);
    render(<Both />);
  });

  it('read it as it was until the frame that shows the rest is drawn', async () => {
    rename('two');
    expect(screen.getByRole('heading').textContent).toBe('two');
    expect(shown()).toBe('one');
    frame();
    await screen.findByText('two', { selector: 'p' });
  });

  it('are drawn with the rest where they ask for it, and wait again at the next change', async () => {
    isAtOnce = true;
    rename('two');
    expect(shown()).toBe('two');
    isAtOnce = false;
    rename('three');
    expect(shown()).toBe('two');
    frame();
    await screen.findByText('three', { selector: 'p' });
  });

  it.each(['keydown', 'pointerdown', 'click'])('are drawn before anybody hears a %s', (kind) => {
    rename('two');
    let heard = '';
    const hear = () => (heard = shown());
    screen.getByRole('paragraph').addEventListener(kind, hear, { once: true });
    screen.getByRole('paragraph').dispatchEvent(new Event(kind, { bubbles: true }));
    expect(heard).toBe('two');
  });

  it('still wait while a key is held down', async () => {
    rename('two');
    window.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', repeat: true }));
    expect(shown()).toBe('one');
    frame();
    await screen.findByText('two', { selector: 'p' });
  });
});
