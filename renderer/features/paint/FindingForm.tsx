import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { JobId } from '#core/shared/ids.ts';
import { DEFECTS, type Defect, type PanelId, SEVERITIES, type Severity } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import { DepthFields, useDepth } from './DepthFields.tsx';
import css from './paint.module.css';

const WHERE = ['here', 'all'] as const;
type Where = (typeof WHERE)[number];

/** One more finding on a panel, or on all of them: what, how bad, how deep, a note. Stays open for the next one until closed. */
export function FindingForm(props: {
  readonly jobId: JobId;
  readonly panel: PanelId;
  /** Every panel of the car. */
  readonly all: readonly PanelId[];
  readonly onClose: () => void;
}): ReactNode {
  const t = useText();
  const [defect, setDefect] = useState<Defect>('swirls');
  const [severity, setSeverity] = useState<Severity>('moderate');
  const depth = useDepth(defect, severity);
  const [where, setWhere] = useState<Where>('here');
  const [note, setNote] = useState('');
  const add = useCommand('paint.addFindings');
  const form = useRef<HTMLElement>(null);
  useEffect(() => form.current?.querySelector('button')?.focus(), []);

  async function save(sure = false): Promise<void> {
    const panels = where === 'all' ? [...props.all] : [props.panel];
    const own = depth.own ? { depth: depth.own, sure } : {};
    const done = await add.run({ jobId: props.jobId, panels, defect, severity, note, ...own });
    if (done.ok) props.onClose();
  }
  return (
    <section
      ref={form}
      className={css['form']}
      aria-label={t('paint.addFinding')}
      onKeyDown={(e) => {
        if (e.key === 'Escape') props.onClose();
      }}
    >
      <Select<Defect>
        label={t('paint.defect')}
        options={DEFECTS.map((value) => ({ value, label: t(`word.defect.${value}`) }))}
        value={defect}
        onChange={setDefect}
      />
      <Segmented<Severity>
        label={t('paint.severity')}
        options={SEVERITIES.map((value) => ({ value, label: t(`word.severity.${value}`) }))}
        value={severity}
        onChange={setSeverity}
      />
      <DepthFields depth={depth} />
      <WhereField value={where} count={props.all.length} onChange={setWhere} />
      <TextField label={t('paint.note')} value={note} onChange={setNote} maxLength={400} />
      <Row>
        <Button kind="go" onPress={() => void save()} busy={add.busy}>
          {t('paint.add')}
        </Button>
        <LinkButton onPress={props.onClose}>{t('paint.close')}</LinkButton>
      </Row>
      <Doubt refusal={add.refusal} onSure={() => void save(true)} />
    </section>
  );
}

/** What was refused; a depth that is only doubted can be said to be right. */
function Doubt(props: { readonly refusal: PlainError | null; readonly onSure: () => void }): ReactNode {
  const t = useText();
  return (
    <Refusal refusal={props.refusal}>
      {props.refusal?.code === 'DEPTH_DOUBTFUL' ? (
        <LinkButton onPress={props.onSure}>{t('paint.rightFar')}</LinkButton>
      ) : null}
    </Refusal>
  );
}

function WhereField(props: {
  readonly value: Where;
  readonly count: number;
  readonly onChange: (where: Where) => void;
}): ReactNode {
  const t = useText();
  const { count } = props;
  return (
    <Segmented<Where>
      label={t('paint.where')}
      options={WHERE.map((value) => ({ value, label: t(`paint.where.${value}`, { count }) }))}
      value={props.value}
      onChange={props.onChange}
    />
  );
}
