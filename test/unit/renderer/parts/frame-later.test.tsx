// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { useFrameLater } from '../../../../renderer/parts/frame-later';

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
