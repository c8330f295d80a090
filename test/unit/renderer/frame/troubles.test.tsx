// @vitest-environment jsdom
import { cleanup, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { NoticeLine } from '../../../../renderer/frame/notice';
import { Troubles } from '../../../../renderer/frame/troubles';
import { desk } from '../../../../renderer/store/store';

afterEach(cleanup);

const lines = (count: number) =>
  Array.from({ length: count }, (_, at) => ({
    what: `Fault ${at}.`,
    where: `dives[${at}]`,
    mend: 'Mend it.',
  }));

describe('troubles of a file', () => {
  it('are told twenty at a time, and that there are more', () => {
    render(<Troubles lines={lines(20)} />);
    expect(screen.getAllByRole('listitem')).toHaveLength(20);
    expect(screen.queryByText(/And more/)).toBeNull();
    cleanup();
    render(<Troubles lines={lines(5000)} />);
    expect(screen.getAllByRole('listitem')).toHaveLength(21);
    expect(screen.getByText('And more; mend these first.')).not.toBeNull();
  });
});

describe('a notice', () => {
  it('tells four lines, and how many more there are', () => {
    desk.setState({ notice: { tone: 'refused', lines: lines(104) } });
    render(<NoticeLine />);
    expect(screen.getAllByText(/^Fault/)).toHaveLength(4);
    expect(screen.getByText('And 100 more.')).not.toBeNull();
  });
});
