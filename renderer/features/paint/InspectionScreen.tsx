import { type ReactNode, useMemo, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { when } from '#core/shared/text/when.ts';
import {
  type InspectionView,
  type PanelInspectionView,
  READING_PHASES,
  type ReadingPhase,
} from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { MarkedPoint } from '../../bridge/useReadings.ts';
import { Button, LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { EstimateAgain } from './EstimateAgain.tsx';
import { FilmKey } from './FilmKey.tsx';
import { LAYERS, type Layer, looksOf } from './looks.ts';
import { PanelColumn } from './PanelColumn.tsx';
import { PasteForm } from './PasteReadings.tsx';
import css from './paint.module.css';
import { type Lamp, useLamp } from './useLamp.ts';

type Props = {
  readonly params: Readonly<Record<string, string>>;
  /** Under the car: what another part of the program has to say about the same panels. */
  readonly foot?: ReactNode;
};

/** The inspection of a job on the flat car. */
export function InspectionScreen(props: Props): ReactNode {
  const t = useText();
  const jobId = props.params['jobId'] as JobId;
  const found = useQuery('paint.inspectionOf', { jobId });
  if (found.data === undefined)
    return (
      <Place label={t('paint.inspection')}>
        {found.error ? <Refusal refusal={found.error} /> : <Waiting />}
      </Place>
    );
  if (found.data === null) return <NotStarted jobId={jobId} />;
  return <Inspection view={found.data} foot={props.foot} />;
}

function NotStarted(props: { readonly jobId: JobId }): ReactNode {
  const t = useText();
  const start = useCommand('paint.startInspection');
  return (
    <Place label={t('paint.inspection')}>
      <Empty title={t('paint.notStarted')} text={t('paint.caution.readingsFirst')}>
        <Button kind="go" onPress={() => void start.run({ jobId: props.jobId })} busy={start.busy} autoFocus>
          {t('paint.start')}
        </Button>
        <LinkTo to={`/jobs/${props.jobId}/estimate`}>{t('paint.toEstimate')}</LinkTo>
      </Empty>
      <Refusal refusal={start.refusal} />
    </Place>
  );
}

function Inspection(props: { readonly view: InspectionView; readonly foot: ReactNode }): ReactNode {
  const t = useText();
  const { view } = props;
  const [layer, setLayer] = useState<Layer>('findings');
  const [pasting, setPasting] = useState(false);
  // Chosen by hand it stays so from panel to panel; till then it follows the work.
  const [chosen, setPhase] = useState<ReadingPhase | null>(null);
  const phase = chosen ?? view.usualPhase;
  const lamp = useLamp(view, setLayer);
  const { panel } = lamp;
  return (
    <Place label={t('paint.inspection')} columns="right">
      <Column label={t('paint.inspection')}>
        <InspectionHead view={view} pasting={pasting} onPasting={setPasting} />
        <EstimateAgain view={view} />
        <Words<Layer>
          label={t('paint.inspection')}
          options={LAYERS.map((value) => ({ value, label: t(`paint.layer.${value}`) }))}
          value={layer}
          onChange={setLayer}
        />
        <CarMap view={view} layer={layer} lamp={lamp} />
        {pasting ? (
          <PasteForm view={view} phase={phase} onPhase={setPhase} onClose={() => setPasting(false)} />
        ) : null}
        {layer === 'film' ? (
          <FilmKey view={view} />
        ) : (
          <p className="t1 dusty">{t(layer === 'plan' ? 'paint.planKey' : 'paint.walk')}</p>
        )}
        {props.foot}
      </Column>
      {panel ? (
        <PanelColumn
          view={view}
          panel={panel}
          layer={layer}
          typed={lamp.typed}
          point={lamp.point}
          phase={phase}
          onPhase={setPhase}
          adding={lamp.adding}
          onAdding={lamp.setAdding}
        />
      ) : null}
    </Place>
  );
}

/** How much was read, by whom and when, and the way on from here. */
function InspectionHead(props: {
  readonly view: InspectionView;
  readonly pasting: boolean;
  readonly onPasting: (pasting: boolean) => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view } = props;
  const read = view.panels.filter((p) => p.readings.length > 0).length;
  const note = t('paint.count', {
    readings: view.readingCount,
    panels: read,
    by: view.by,
    when: when(manner, view.startedMs, Date.now()),
  });
  return (
    <Head level={1} title={t('paint.inspection')} note={note}>
      <LinkButton quiet onPress={() => props.onPasting(!props.pasting)}>
        {t('paint.paste')}
      </LinkButton>
      <LinkTo quiet to={`/jobs/${view.jobId}/estimate`}>
        {t('paint.toEstimate')}
      </LinkTo>
      <LinkTo quiet to={`/vehicles/${view.vehicleId}/film`}>
        {t('paint.toFilm')}
      </LinkTo>
    </Head>
  );
}

/** The flat car in one layer, with the panel in the lamp and its marked points. */
function CarMap(props: {
  readonly view: InspectionView;
  readonly layer: Layer;
  readonly lamp: Lamp;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const { view, layer, lamp } = props;
  const looks = useMemo(
    () => looksOf(view, layer, { manner, say: t, thinTenthUm: view.thinTenthUm }),
    [view, layer, manner, t],
  );
  return (
    <div className={css['car']}>
      <FlatCar
        body={view.body}
        label={`${t('paint.inspection')}, ${t(`word.body.${view.body}`)}`}
        look={looks}
        selected={lamp.panel ? [lamp.panel.panel] : []}
        onPanel={lamp.pick}
        onKey={lamp.press}
        over={<Marks panel={lamp.panel} point={lamp.point} />}
        sides={{
          front: t('paint.front'),
          rear: t('paint.rear'),
          left: t('paint.leftSide'),
          right: t('paint.rightSide'),
        }}
      />
    </div>
  );
}

/** Marked readings of the panel in the lamp, and the point that the next ones belong to. */
function Marks(props: {
  readonly panel: PanelInspectionView | undefined;
  readonly point: MarkedPoint | null;
}): ReactNode {
  const marked = props.panel?.readings.filter((r) => r.at !== null && r.phase === READING_PHASES[0]) ?? [];
  return (
    <g className={css['marks']}>
      {marked.map((r) => (
        <circle key={r.id} cx={r.at?.x} cy={r.at?.y} r={4} />
      ))}
      {props.point ? <circle className={css['next']} cx={props.point.x} cy={props.point.y} r={7} /> : null}
    </g>
  );
}
