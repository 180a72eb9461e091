import { Fragment, type ReactNode } from 'react';
import { hoursMinutes } from '#core/shared/text/format.ts';
import type { UtilizationParts } from '#core/shared/views/figures.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import css from './figures.module.css';
import { FORMS, minutesOf, PARTS } from './parts.ts';

/** Open minutes as one strip cut into its parts. `ofMin` is the length of the whole width. */
export function Strip(props: {
  readonly parts: UtilizationParts;
  readonly ofMin: number;
  readonly label: string;
  readonly tall?: boolean;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const said = PARTS.map(
    (p) => `${t(`figures.part.${p}`)} ${hoursMinutes(manner, minutesOf(props.parts, p))}`,
  ).join(', ');
  return (
    <div
      className={css['strip']}
      data-tall={props.tall ?? false}
      role="img"
      aria-label={`${props.label}: ${said}`}
      title={said}
    >
      {PARTS.map((part) => {
        const minutes = minutesOf(props.parts, part);
        return minutes === 0 ? null : (
          <i key={part} data-form={FORMS[part]} style={{ width: `${(minutes / props.ofMin) * 100}%` }} />
        );
      })}
    </div>
  );
}

/** All bays as one strip, and the sum written out to the minute: the parts as printed are the open hours. */
export function HoursSum(props: { readonly total: UtilizationParts }): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <div className={css['sum']}>
      <Strip parts={props.total} ofMin={props.total.availableMin} label={t('figures.bayHours')} tall />
      <p className={css['sumLine']}>
        {PARTS.map((part, i) => (
          <Fragment key={part}>
            {i === 0 ? null : <span className={css['plus']}>+</span>}
            <i className={css['key']} data-form={FORMS[part]} />
            <span>{t(`figures.part.${part}`)}</span>
            <b>{hoursMinutes(manner, minutesOf(props.total, part))}</b>
          </Fragment>
        ))}
        <span className={css['plus']}>=</span>
        <b className={css['whole']} data-testid="open-hours">
          {hoursMinutes(manner, props.total.availableMin)}
        </b>
        <span>{t('figures.sum')}</span>
      </p>
    </div>
  );
}
