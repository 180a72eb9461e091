import { type ReactNode, useState } from 'react';
import { film } from '#core/shared/text/format.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { CardStage, CardView } from '#core/shared/views/card.ts';
import type { InspectionView, ReadingPhase } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { usePhases } from '../../bridge/usePhases.ts';
import { useReadings } from '../../bridge/useReadings.ts';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Head } from '../../ui/Layout.tsx';
import { Caution, Empty, Refusal, Waiting } from '../../ui/States.tsx';
import css from './card.module.css';
import { firstPanel } from './firstPanel.ts';
import { KeyPad } from './KeyPad.tsx';

type Props = { readonly card: CardView; readonly stage: CardStage; readonly onBack: () => void };

/** Readings taken in the bay: the panel is pressed on the car, the figures are typed on large keys. */
export function ReadingForm(props: Props): ReactNode {
  const t = useText();
  const jobId = props.card.job.id;
  const look = useQuery('paint.inspectionOf', { jobId });
  const start = useCommand('paint.startInspection');
  return (
    <section className={css['form']} aria-label={t('card.reading')}>
      {look.data === undefined ? (
        look.error ? (
          <Refusal refusal={look.error} />
        ) : (
          <Waiting />
        )
      ) : look.data === null ? (
        <Empty title={t('paint.notStarted')} text={t('paint.caution.readingsFirst')}>
          <Button kind="go" busy={start.busy} onPress={() => void start.run({ jobId })}>
            {t('paint.start')}
          </Button>
        </Empty>
      ) : (
        <Readings {...props} view={look.data} />
      )}
      <Refusal refusal={start.refusal} />
      <nav className={css['go']}>
        <Button onPress={props.onBack}>{t('card.backToStage')}</Button>
      </nav>
    </section>
  );
}

function Readings(props: Props & { readonly view: InspectionView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const phases = usePhases();
  const { view } = props;
  const [panel, setPanel] = useState<PanelId>(() => firstPanel(props.stage));
  const [phase, setPhase] = useState<ReadingPhase>(view.usualPhase);
  const look: Partial<Record<PanelId, PanelLook>> = {};
  for (const p of view.panels) {
    const n = p.readings.filter((r) => r.phase === phase).length;
    look[p.panel] = !p.readable
      ? { state: 'unread' }
      : n > 0
        ? { state: 'done', label: String(n) }
        : { state: 'outline' };
  }
  const chosen = view.panels.find((p) => p.panel === panel);
  return (
    <div className={css['body']}>
      <section>
        <Head title={t('card.reading')} note={t('card.pressPanel')} />
        <FlatCar
          body={view.body}
          label={t('card.reading')}
          look={look}
          selected={[panel]}
          onPanel={setPanel}
        />
      </section>
      <section>
        <div>
          <Head title={panelName(manner.locale, panel, view.body)} note={film(manner, 0).unit} />
        </div>
        <Segmented<ReadingPhase> bare {...phases} value={phase} onChange={setPhase} />
        {chosen?.readable === false ? (
          <p className="quiet">{t('paint.cantRead', { substrate: chosen.substrate })}</p>
        ) : (
          <Entry key={`${panel} ${phase}`} view={view} panel={panel} phase={phase} />
        )}
      </section>
    </div>
  );
}

function Entry(props: {
  readonly view: InspectionView;
  readonly panel: PanelId;
  readonly phase: ReadingPhase;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view, panel, phase } = props;
  const entry = useReadings(view.jobId, panel, phase);
  const taken = view.panels.find((p) => p.panel === panel)?.readings.filter((r) => r.phase === phase) ?? [];
  return (
    <>
      <div className={css['chips']}>
        {taken.map((r) => (
          <button
            key={r.id}
            type="button"
            aria-label={`${t('paint.remove')} ${film(manner, r.tenthUm).value}`}
            title={t('paint.remove')}
            onClick={() => entry.takeBack(r.id)}
          >
            {film(manner, r.tenthUm).value} <span aria-hidden="true">×</span>
          </button>
        ))}
      </div>
      <input
        className={css['typed']}
        // The keys below are the keyboard of the bay; one at the desk types too.
        inputMode="none"
        autoComplete="off"
        aria-label={t('paint.readingsField', { unit: manner.filmUnit })}
        placeholder={t('paint.readingsField', { unit: manner.filmUnit })}
        aria-invalid={entry.bad}
        value={entry.text}
        onChange={(e) => entry.setText(e.currentTarget.value)}
        onKeyDown={(e) => {
          if (e.key === 'Enter') void entry.save();
        }}
      />
      <KeyPad text={entry.text} onChange={entry.setText} />
      {entry.bad ? <Caution>{t('ui.field.number')}</Caution> : null}
      <Refusal refusal={entry.refusal}>
        {entry.doubtful
          ? (['um', 'mil'] as const).map((unit) => (
              <Button key={unit} onPress={() => void entry.save({ unit })}>
                {t('paint.asTyped', { unit })}
              </Button>
            ))
          : null}
        {entry.farOff ? (
          <Button onPress={() => void entry.save({ right: true })}>{t('paint.rightFar')}</Button>
        ) : null}
      </Refusal>
      <Button kind="go" busy={entry.busy} onPress={() => void entry.save()}>
        {t('card.keepReadings')}
      </Button>
    </>
  );
}
