import { createElement, Fragment, type ReactNode } from 'react';
import { areJoined, isBuilt, type Formula, type Term } from '../../../core/words/formula';
import type { Words } from '../../../core/words/reader';
import { said } from '../../../core/words/said';

/** White between two terms, as wide as a blank. */
const GAP = '0.28em';

/** Fractions in fractions are as large as their own: they are read from the back row. */
const LARGE = { displaystyle: 'true', scriptlevel: '0' };

function Row(props: {
  readonly formula: Formula;
  readonly words: Words;
  readonly isSmall?: boolean;
}): ReactNode {
  const { formula, words, isSmall = false } = props;
  let before = '(';
  const terms = formula.map((term, at) => {
    const text = isBuilt(term) ? 'x' : words(said`${term}`);
    const hasGap = !areJoined(before, text);
    before = text;
    return (
      // A formula never changes in place: its terms are known by where they stand.
      <Fragment key={`${at}`}>
        {hasGap ? createElement('mspace', { width: GAP }) : null}
        <TermMark term={term} words={words} />
      </Fragment>
    );
  });
  return createElement('mrow', isSmall ? null : LARGE, ...terms);
}

function TermMark({ term, words }: { readonly term: Term; readonly words: Words }): ReactNode {
  if (!isBuilt(term)) return createElement('mtext', null, words(said`${term}`));
  return term.is === 'fraction'
    ? createElement(
        'mfrac',
        null,
        <Row formula={term.over} words={words} />,
        <Row formula={term.under} words={words} />,
      )
    : createElement(
        'msup',
        null,
        <Row formula={term.base} words={words} />,
        <Row formula={term.power} words={words} isSmall />,
      );
}

/** A formula with its fractions open, drawn by the browser and read out as one. */
export function Maths({ formula, words }: { readonly formula: Formula; readonly words: Words }): ReactNode {
  return createElement('math', null, <Row formula={formula} words={words} />);
}
