import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { depthText } from '#core/shared/text/format.ts';
import type { FindingView } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

const FORM = { comesOut: 'done', maySoften: 'hatch', stays: 'lit' } as const;

/** Findings of a panel: what becomes of each, how deep its class goes, and why. */
export function FindingList(props: {
  readonly jobId: JobId;
  readonly findings: readonly FindingView[];
}): ReactNode {
  const t = useText();
  const remove = useCommand('paint.removeFinding');
  if (props.findings.length === 0) return <p className="quiet">{t('paint.noFindings')}</p>;
  return (
    <>
      <ul className={css['findings']} aria-label={t('paint.findings')}>
        {props.findings.map((f) => (
          <Finding
            key={f.id}
            finding={f}
            onRemove={() => void remove.run({ jobId: props.jobId, findingId: f.id })}
          />
        ))}
      </ul>
      <Refusal refusal={remove.refusal} />
    </>
  );
}

function Finding(props: { readonly finding: FindingView; readonly onRemove: () => void }): ReactNode {
  const t = useText();
  const manner = useManner();
  const f = props.finding;
  const deep = depthText(manner, f.depth);
  return (
    <li className={css['finding']} data-verdict={f.verdict}>
      <span className={css['mark']} data-form={FORM[f.verdict]} aria-hidden="true" />
      <b className={f.verdict === 'stays' ? 'lamp' : undefined}>{t(`word.verdict.${f.verdict}`)}</b>
      <span>
        {t(`word.defect.${f.defect}`)}, {t(`word.severity.${f.severity}`)}
      </span>
      <span className="num right">
        {deep ? (
          <>
            {deep.value}
            <span className="unit">{deep.unit}</span>
          </>
        ) : null}
      </span>
      <span className={css['because']}>
        {t(`verdict.${f.reason}`)} {f.note}
      </span>
      <LinkButton
        quiet
        onPress={props.onRemove}
        label={`${t('paint.remove')} ${t(`word.defect.${f.defect}`)}`}
      >
        {t('paint.remove')}
      </LinkButton>
    </li>
  );
}
