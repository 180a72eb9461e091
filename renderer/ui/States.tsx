import type { ReactNode } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { useSentence, useText } from '../bridge/texts.tsx';
import { LinkButton } from './Button.tsx';
import css from './States.module.css';

/** Something went wrong: what, what is safe, what to do. */
export function ErrorNote(props: {
  readonly title: ReactNode;
  readonly text?: ReactNode;
  readonly safe?: ReactNode;
  readonly next?: ReactNode;
  readonly children?: ReactNode;
}): ReactNode {
  const t = useText();
  return (
    <div className={css['note']} role="alert">
      <div>
        <strong>{props.title}</strong>
        {props.text ? <p className="quiet">{props.text}</p> : null}
      </div>
      {props.safe || props.next ? (
        <dl className={css['facts']}>
          {props.safe ? (
            <>
              <dt>{t('ui.safe')}</dt>
              <dd>{props.safe}</dd>
            </>
          ) : null}
          {props.next ? (
            <>
              <dt>{t('ui.next')}</dt>
              <dd>{props.next}</dd>
            </>
          ) : null}
        </dl>
      ) : null}
      {props.children ? <div className={css['row']}>{props.children}</div> : null}
    </div>
  );
}

/** The core's refusal in its own words; nothing where there is none. Remedies go in as children. */
export function Refusal(props: {
  readonly refusal: PlainError | null | undefined;
  readonly children?: ReactNode;
}): ReactNode {
  const sentence = useSentence();
  if (!props.refusal) return null;
  return (
    <div className={css['note']} role="alert" data-code={props.refusal.code}>
      <p>{sentence(props.refusal)}</p>
      {props.children ? <div className={css['row']}>{props.children}</div> : null}
    </div>
  );
}

/** A rule that said no, in one sentence, with the nearest things that work. */
export function Refused(props: {
  readonly what: ReactNode;
  readonly reason: ReactNode;
  readonly remedies?: readonly { readonly label: string; readonly onPress: () => void }[];
}): ReactNode {
  return (
    <div className={css['note']} role="alert">
      <p>
        <strong>{props.what}</strong> <span className="quiet">{props.reason}</span>
      </p>
      {props.remedies && props.remedies.length > 0 ? (
        <div className={css['row']}>
          {props.remedies.map((r) => (
            <LinkButton key={r.label} onPress={r.onPress}>
              {r.label}
            </LinkButton>
          ))}
        </div>
      ) : null}
    </div>
  );
}

/** An empty place: what belongs here, and the one next step. */
export function Empty(props: {
  readonly title: ReactNode;
  readonly text?: ReactNode;
  readonly children?: ReactNode;
}): ReactNode {
  return (
    <div className={css['empty']}>
      <p>
        <strong>{props.title}</strong>
      </p>
      {props.text ? <p className="quiet">{props.text}</p> : null}
      {props.children ? <div className={css['row']}>{props.children}</div> : null}
    </div>
  );
}

/** A short caution where work can hurt somebody. */
export function Caution(props: { readonly children: ReactNode }): ReactNode {
  return <p className={css['caution']}>{props.children}</p>;
}

/** Still being read. Shown only where an answer takes its time. */
export function Waiting(): ReactNode {
  const t = useText();
  return (
    <p className={css['wait']} aria-busy="true">
      {t('ui.waiting')}
    </p>
  );
}

/** Somebody or something else changed it, or a fact worth a line; not a fault. */
export function CalmNote(props: {
  readonly title?: ReactNode;
  readonly text?: ReactNode;
  readonly children?: ReactNode;
}): ReactNode {
  return (
    <div className={css['note']} data-tone="calm">
      <div>
        {props.title ? <strong>{props.title}</strong> : null}
        {props.text ? <p className="quiet">{props.text}</p> : null}
      </div>
      {props.children ? <div className={css['row']}>{props.children}</div> : null}
    </div>
  );
}
