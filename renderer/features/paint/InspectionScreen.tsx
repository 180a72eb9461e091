import { type KeyboardEvent, type ReactNode, useMemo, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { when } from '#core/shared/text/when.ts';
import { type InspectionView, READING_PHASES } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { MarkedPoint } from '../../bridge/useReadings.ts';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { Words } from '../../ui/Choice.tsx';
import { FlatCar, type PickHow } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place } from '../../ui/Layout.tsx';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { useShortcuts } from '../../ui/shortcuts.ts';
import { FilmKey } from './FilmKey.tsx';
import { LAYERS, type Layer, looksOf } from './looks.ts';
import { PanelColumn } from './PanelColumn.tsx';
import { PasteReadings } from './PasteReadings.tsx';
import css from './paint.module.css';

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
  if (found.error)
    return (
      <Place label={t('paint.inspection')}>
        <Refusal refusal={found.error} />
      </Place>
    );
  if (found.data === undefined)
    return (
      <Place label={t('paint.inspection')}>
        <Waiting />
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
  const manner = useManner();
  const { view } = props;
  const [layer, setLayer] = useState<Layer>('findings');
  const [selected, setSelected] = useState<PanelId>(view.panels.some((p) => p.panel === 'bo') ? 'bo' : 'fb');
  const [point, setPoint] = useState<MarkedPoint | null>(null);
  const [typed, setTyped] = useState({ text: '', n: 0 });
  const [adding, setAdding] = useState(false);
  const looks = useMemo(
    () => looksOf(view, layer, { manner, say: t, thinTenthUm: view.thinTenthUm }),
    [view, layer, manner, t],
  );
  const panel = view.panels.find((p) => p.panel === selected) ?? view.panels[0];
  const layerKeys = LAYERS.map((one, i) => [`Alt+${i + 1}`, () => setLayer(one)] as const);
  useShortcuts(Object.fromEntries([['F', () => setAdding(true)] as const, ...layerKeys]));

  function pick(id: PanelId, how: PickHow): void {
    // A second press on the panel in the lamp marks the point that the next readings belong to.
    setPoint(id === selected ? how.at : null);
    setSelected(id);
    // A digit belongs to the panel it was typed on.
    setTyped({ text: '', n: 0 });
    if (id !== selected) setAdding(false);
  }
  function press(id: PanelId, event: KeyboardEvent): void {
    if (!/^\d$/.test(event.key) || event.altKey || event.ctrlKey) return;
    event.preventDefault();
    setSelected(id);
    setTyped((before) => ({ text: event.key, n: before.n + 1 }));
  }
  const read = view.panels.filter((p) => p.readings.length > 0).length;
  return (
    <Place label={t('paint.inspection')} columns="right">
      <Column label={t('paint.inspection')}>
        <Head
          level={1}
          title={t('paint.inspection')}
          note={t('paint.count', {
            readings: view.readingCount,
            panels: read,
            by: view.by,
            when: when(manner, view.startedMs, Date.now()),
          })}
        >
          <PasteReadings jobId={view.jobId} />
          <LinkTo quiet to={`/jobs/${view.jobId}/estimate`}>
            {t('paint.toEstimate')}
          </LinkTo>
          <LinkTo quiet to={`/vehicles/${view.vehicleId}/film`}>
            {t('paint.toFilm')}
          </LinkTo>
        </Head>
        <Words<Layer>
          label={t('paint.inspection')}
          options={LAYERS.map((value) => ({ value, label: t(`paint.layer.${value}`) }))}
          value={layer}
          onChange={setLayer}
        />
        <div className={css['car']}>
          <FlatCar
            body={view.body}
            label={`${t('paint.inspection')}, ${t(`word.body.${view.body}`)}`}
            look={looks}
            selected={panel ? [panel.panel] : []}
            onPanel={pick}
            onKey={press}
            over={<Marks view={view} panel={selected} point={point} />}
            sides={{
              front: t('paint.front'),
              rear: t('paint.rear'),
              left: t('paint.leftSide'),
              right: t('paint.rightSide'),
            }}
          />
        </div>
        {layer === 'film' ? <FilmKey view={view} /> : <p className="t1 dusty">{t('paint.walk')}</p>}
        {props.foot}
      </Column>
      {panel ? (
        <PanelColumn
          view={view}
          panel={panel}
          layer={layer}
          typed={typed}
          point={point}
          adding={adding}
          onAdding={setAdding}
        />
      ) : null}
    </Place>
  );
}

/** Marked readings of the panel in the lamp, and the point that the next ones belong to. */
function Marks(props: {
  readonly view: InspectionView;
  readonly panel: PanelId;
  readonly point: MarkedPoint | null;
}): ReactNode {
  const panel = props.view.panels.find((p) => p.panel === props.panel);
  const marked = panel?.readings.filter((r) => r.at !== null && r.phase === READING_PHASES[0]) ?? [];
  return (
    <g className={css['marks']}>
      {marked.map((r) => (
        <circle key={r.id} cx={r.at?.x} cy={r.at?.y} r={4} />
      ))}
      {props.point ? <circle className={css['next']} cx={props.point.x} cy={props.point.y} r={7} /> : null}
    </g>
  );
}
