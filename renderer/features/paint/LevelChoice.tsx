import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import type { PanelInspectionView } from '#core/shared/views/paint.ts';
import { LEVELS, type Level } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMe } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Select } from '../../ui/Select.tsx';
import { CalmNote, Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

/** What a named person may take on. */
const FILM_CODES = ['FILM_TOO_THIN', 'FILM_BELOW_FLOOR', 'SANDING_FILM_UNKNOWN'] as const;

/** How far this panel is taken. What the film forbids can be taken on by name, with a reason for the quote. */
export function LevelChoice(props: {
  readonly jobId: JobId;
  readonly panel: PanelInspectionView;
}): ReactNode {
  const t = useText();
  const choose = useCommand('estimate.choose');
  const forbid = useCommand('paint.forbidPanel');
  const [wanted, setWanted] = useState<Level | null>(null);
  const { jobId, panel } = props;
  const film = FILM_CODES.some((code) => code === choose.refusal?.code);
  // Wet sanding is offered on the estimate, where its consent is recorded.
  const levels = LEVELS.filter((l) => l !== 'sanded' || panel.consent !== null);

  async function take(level: Level): Promise<void> {
    setWanted(level);
    await choose.run({ jobId, levels: [{ panel: panel.panel, level }] });
  }
  return (
    <div className={css['level']}>
      <Select<Level>
        label={t('paint.level')}
        options={levels.map((value) => ({ value, label: t(`word.level.${value}`) }))}
        value={panel.level}
        onChange={(level) => void take(level)}
      />
      {panel.held ? <p className="t1 lit lamp">{t(`paint.held.${panel.held}`)}</p> : null}
      <Refusal refusal={choose.refusal} />
      {film && wanted ? <TakeOn jobId={jobId} panel={panel} onDone={() => void take(wanted)} /> : null}
      {panel.override ? (
        <CalmNote text={t('paint.overrideBy', panel.override)}>
          <LinkButton onPress={() => void forbid.run({ jobId, panel: panel.panel })}>
            {t('paint.remove')}
          </LinkButton>
        </CalmNote>
      ) : null}
    </div>
  );
}

function TakeOn(props: {
  readonly jobId: JobId;
  readonly panel: PanelInspectionView;
  readonly onDone: () => void;
}): ReactNode {
  const t = useText();
  const me = useMe();
  const allow = useCommand('paint.allowPanel');
  const [reason, setReason] = useState('');

  async function save(): Promise<void> {
    const person = me?.name ?? '';
    const done = await allow.run({ jobId: props.jobId, panel: props.panel.panel, person, reason });
    if (done.ok) props.onDone();
  }
  return (
    <div className={css['form']}>
      <TextField
        label={t('paint.overrideReason')}
        value={reason}
        onChange={setReason}
        maxLength={400}
        autoFocus
      />
      <Button kind="final" onPress={() => void save()} busy={allow.busy}>
        {t('paint.override')}
      </Button>
      <Refusal refusal={allow.refusal} />
    </div>
  );
}
