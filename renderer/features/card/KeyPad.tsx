import type { ReactNode } from 'react';
import { useManner, useText } from '../../bridge/texts.tsx';
import { separators } from '../../ui/parse.ts';
import css from './card.module.css';

/** Figures for a thumb in a glove: digits, the decimal mark, the next figure, one sign back. */
export function KeyPad(props: {
  readonly text: string;
  readonly onChange: (text: string) => void;
}): ReactNode {
  const t = useText();
  const { decimal } = separators(useManner().region);
  const { text, onChange } = props;
  const key = (sign: string, label?: string, typed = sign): ReactNode => (
    <button key={sign} type="button" aria-label={label} onClick={() => onChange(text + typed)}>
      {sign}
    </button>
  );
  return (
    <div className={css['pad']}>
      {['7', '8', '9'].map((n) => key(n))}
      <button type="button" aria-label={t('card.keyBack')} onClick={() => onChange(text.slice(0, -1))}>
        ⌫
      </button>
      {['4', '5', '6'].map((n) => key(n))}
      {key(decimal, t('card.keyDecimal'), '.')}
      {['1', '2', '3'].map((n) => key(n))}
      {key('0')}
      <button
        type="button"
        className={css['wideKey']}
        onClick={() => onChange(text.trim() === '' ? '' : `${text.trimEnd()} `)}
      >
        {t('card.keyNext')}
      </button>
    </div>
  );
}
