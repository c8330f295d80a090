// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { failure, success } from '../../../../core/result';
import type { EditResult } from '../../../../renderer/actions/edit';
import { DateField } from '../../../../renderer/parts/date-field';
import { NotesField } from '../../../../renderer/parts/notes-field';
import { desk } from '../../../../renderer/store/store';
import { blankTrip } from '../../../../renderer/store/blank-trip';

afterEach(cleanup);

type Commit = (value: string) => EditResult;

const taken = () => vi.fn<Commit>(() => success(blankTrip()));
const refused = () =>
  vi.fn<Commit>(() => failure({ kind: 'invalid', what: 'Too late.', where: '', mend: 'Choose another.' }));

describe('a date field', () => {
  function field(commit: Commit): HTMLInputElement {
    render(<DateField label="Day" value="2027-03-14" commit={commit} />);
    return screen.getByLabelText<HTMLInputElement>('Day');
  }

  it('says its date in words, as the rest of the window writes it, and describes itself by them', () => {
    const input = field(taken());
    const words = screen.getByText('Sun 14 March');
    expect(input.getAttribute('aria-describedby')).toBe(words.id);
  });

  it('commits on leaving and on Enter, and nothing where the date is the same', () => {
    const commit = taken();
    const input = field(commit);
    fireEvent.change(input, { target: { value: '2027-03-15' } });
    expect(commit).not.toHaveBeenCalled();
    fireEvent.blur(input);
    expect(commit.mock.calls).toEqual([['2027-03-15']]);
    fireEvent.change(input, { target: { value: '2027-03-14' } });
    fireEvent.keyDown(input, { key: 'Enter' });
    expect(commit).toHaveBeenCalledTimes(1);
  });

  it('follows the order of the settings, and steps by days and weeks', () => {
    const commit = taken();
    const input = field(commit);
    expect(input.value).toBe('14/03/2027');
    act(() => desk.setState(({ settings }) => ({ settings: { ...settings, dates: 'mdy' } })));
    expect(input.value).toBe('03/14/2027');
    fireEvent.change(input, { target: { value: '4/1/2027' } });
    fireEvent.keyDown(input, { key: 'Enter' });
    fireEvent.keyDown(input, { key: 'ArrowUp' });
    fireEvent.keyDown(input, { key: 'ArrowDown', shiftKey: true });
    expect(commit.mock.calls).toEqual([['2027-04-01'], ['2027-03-15'], ['2027-03-07']]);
    act(() => desk.setState(({ settings }) => ({ settings: { ...settings, dates: 'dmy' } })));
  });

  it('says why a date is refused, and takes it back on Escape', () => {
    const input = field(refused());
    fireEvent.change(input, { target: { value: '2027-03-20' } });
    fireEvent.blur(input);
    expect(screen.getByRole('alert').textContent).toBe('Too late. Choose another.');
    expect(input.value).toBe('2027-03-20');
    fireEvent.keyDown(input, { key: 'Escape' });
    expect(screen.queryByRole('alert')).toBeNull();
    expect(input.value).toBe('14/03/2027');
    fireEvent.change(input, { target: { value: '' } });
    fireEvent.blur(input);
    expect(screen.getByRole('alert').textContent).toContain(
      'There is no date. Type it as 16/03/2027, or 16 Mar 2027.',
    );
  });
});

describe('a notes field', () => {
  it('keeps a line break on Enter, commits on leaving, and goes back on Escape', () => {
    const commit = taken();
    render(<NotesField label="Notes" value="sand" commit={commit} />);
    const area = screen.getByLabelText<HTMLTextAreaElement>('Notes');
    fireEvent.change(area, { target: { value: 'sand and eels' } });
    fireEvent.keyDown(area, { key: 'Enter' });
    expect(commit).not.toHaveBeenCalled();
    fireEvent.keyDown(area, { key: 'Escape' });
    expect(area.value).toBe('sand');
    fireEvent.change(area, { target: { value: ' eels ' } });
    fireEvent.keyDown(area, { key: 'Enter', ctrlKey: true });
    expect(commit.mock.calls).toEqual([['eels']]);
  });
});
