import { type ReactNode, useEffect, useRef, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import css from './shop.module.css';
import { readSpans, spansText } from './week.ts';

/** The hours of one day as text; passed on when the field is left and they can be read. */
export function SpanField(props: {
  readonly label: string;
  readonly text: string;
  readonly cycle: 12 | 24;
  readonly off: string | undefined;
  /** What was typed here and can't be read; it stays, marked, until it can. */
  readonly unread: string | undefined;
  readonly onUnread: (text: string | null) => void;
  readonly onChange: (spans: readonly { readonly startMin: number; readonly endMin: number }[]) => void;
}): ReactNode {
  const t = useText();
  const { text, unread } = props;
  const [typed, setTyped] = useState(unread ?? text);
  const shown = useRef(text);
  useEffect(() => {
    if (shown.current !== text) setTyped(text);
    shown.current = text;
  }, [text]);
  function done(): void {
    if (props.off !== undefined) return;
    const spans = readSpans(typed);
    if (spans === null && typed !== unread) props.onUnread(typed);
    if (spans === null) return;
    if (unread !== undefined) props.onUnread(null);
    const plain = spansText(spans, props.cycle);
    setTyped(plain);
    if (plain !== text) props.onChange(spans);
  }
  return (
    <input
      className={`${css['span']} num`}
      aria-label={props.label}
      aria-invalid={unread === undefined ? undefined : true}
      title={props.off}
      readOnly={props.off !== undefined}
      placeholder={t('shop.closed')}
      autoComplete="off"
      value={typed}
      onFocus={(e) => e.currentTarget.select()}
      onChange={(e) => setTyped(e.currentTarget.value)}
      onBlur={done}
      onKeyDown={(e) => (e.key === 'Enter' ? done() : undefined)}
    />
  );
}
