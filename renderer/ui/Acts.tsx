import { type ReactNode, useEffect, useId, useRef } from 'react';
import { count } from '#core/shared/text/format.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import { Button, LinkButton } from './Button.tsx';
import css from './States.module.css';

/** A question in place, only for what can't be taken back. Focus starts on the answer that keeps things; Esc is it too. */
export function Confirm(props: {
  readonly title: ReactNode;
  readonly text: ReactNode;
  readonly yes: string;
  readonly no: string;
  readonly onYes: () => void;
  readonly onNo: () => void;
  readonly busy?: boolean;
  /** Why it can't be answered with yes yet. */
  readonly why?: string | undefined;
  readonly children?: ReactNode;
}): ReactNode {
  const t = useText();
  const id = useId();
  const keep = useRef<HTMLButtonElement>(null);
  useEffect(() => keep.current?.focus(), []);
  return (
    <section
      className={css['ask']}
      role="alertdialog"
      aria-labelledby={id}
      onKeyDown={(e) => {
        if (e.key === 'Escape') props.onNo();
      }}
    >
      <h2 id={id} className="t3">
        {props.title}
      </h2>
      <p className="quiet">{props.text}</p>
      {props.children}
      <div className={css['row']}>
        <Button kind="final" onPress={props.onYes} busy={props.busy ?? false} why={props.why}>
          {props.yes}
        </Button>
        <Button ref={keep} onPress={props.onNo}>
          {props.no}
        </Button>
        <span className={css['spread']}>{t('ui.escIs', { answer: props.no })}</span>
      </div>
    </section>
  );
}

/** A question on one line, for what moves something that was promised but can be moved back. */
export function InlineConfirm(props: {
  readonly question: ReactNode;
  readonly yes: string;
  readonly no: string;
  readonly onYes: () => void;
  readonly onNo: () => void;
}): ReactNode {
  const id = useId();
  return (
    <section
      className={css['ask']}
      data-tone="calm"
      role="alertdialog"
      aria-labelledby={id}
      onKeyDown={(e) => {
        if (e.key === 'Escape') props.onNo();
      }}
    >
      <div className={css['row']}>
        <span id={id}>{props.question}</span>
        <Button onPress={props.onYes} autoFocus>
          {props.yes}
        </Button>
        <LinkButton onPress={props.onNo}>{props.no}</LinkButton>
      </div>
    </section>
  );
}

/** Work that takes a while: how far, how to stop it. */
export function Progress(props: {
  readonly label: ReactNode;
  readonly done: number;
  readonly total: number;
  readonly note?: ReactNode;
  readonly onCancel?: () => void;
  readonly cancel?: string;
}): ReactNode {
  const manner = useManner();
  const t = useText();
  const share = props.total > 0 ? Math.min(1, props.done / props.total) : 0;
  return (
    <div>
      <div className={css['line']}>
        <strong>{props.label}</strong>
        <span className="num quiet">
          {t('ui.doneOf', { done: count(manner, props.done), total: count(manner, props.total) })}
        </span>
      </div>
      <progress className="unseen" max={1} value={share} />
      <div className={css['bar']} aria-hidden="true">
        <div className={css['fill']} style={{ width: `${share * 100}%` }} />
      </div>
      <div className={css['line']}>
        <span className="quiet">{props.note}</span>
        {props.onCancel ? (
          <LinkButton onPress={props.onCancel}>{props.cancel ?? t('ui.cancelKeepNone')}</LinkButton>
        ) : null}
      </div>
    </div>
  );
}

/** Done, and how to take it back. Ctrl+Z does the same while it is shown. */
export function Undo(props: {
  readonly text: ReactNode;
  readonly onUndo: () => void;
  readonly onClose?: () => void;
}): ReactNode {
  const t = useText();
  const { onUndo } = props;
  useEffect(() => {
    function press(e: KeyboardEvent): void {
      const typing = e.target instanceof HTMLInputElement || e.target instanceof HTMLTextAreaElement;
      if ((e.ctrlKey || e.metaKey) && e.key === 'z' && !e.shiftKey && !typing) onUndo();
    }
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, [onUndo]);
  return (
    <div className={css['undo']} role="status">
      <span>{props.text}</span>
      <LinkButton onPress={onUndo}>{t('ui.undo')}</LinkButton>
      <kbd className="kbd">Ctrl Z</kbd>
      {props.onClose ? (
        <LinkButton quiet onPress={props.onClose}>
          {t('ui.close')}
        </LinkButton>
      ) : null}
    </div>
  );
}
