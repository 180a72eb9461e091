import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import { type JobPicturesView, type PictureView, READING_PHASES } from '#core/shared/views/paint.ts';
import type { PanelId } from '#core/shared/vocabulary.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import type { PanelLook } from '../../ui/flatcar/CarPanel.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Column, Head, Place, Stack } from '../../ui/Layout.tsx';
import type { Params } from '../../ui/router.ts';
import { Empty, Refusal, Waiting } from '../../ui/States.tsx';
import { AddPicture } from './AddPicture.tsx';
import { BeforeAfter, Picture, pairOf } from './BeforeAfter.tsx';
import css from './paint.module.css';

/** Pictures of a job: the car to choose where, before and after either side of the tape, every picture below. */
export function PicturesScreen(props: { readonly params: Params }): ReactNode {
  const t = useText();
  const jobId = props.params['jobId'] as JobId;
  const asked = useQuery('paint.pictures', { jobId });
  if (!asked.data)
    return (
      <Place label={t('paint.layer.pictures')}>
        {asked.loading ? <Waiting /> : <Refusal refusal={asked.error} />}
      </Place>
    );
  return <Pictures jobId={jobId} view={asked.data} />;
}

/** Panels with pictures say how many; those with both sides are done. */
function looksOf(pictures: readonly PictureView[]): Partial<Record<PanelId, PanelLook>> {
  const looks: Partial<Record<PanelId, PanelLook>> = {};
  for (const { panel } of pictures) {
    if (panel === null) continue;
    const here = pictures.filter((p) => p.panel === panel);
    looks[panel] = { state: pairOf(here) ? 'done' : 'outline', label: String(here.length) };
  }
  return looks;
}

function Pictures(props: { readonly jobId: JobId; readonly view: JobPicturesView }): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const { jobId, view } = props;
  // Where there is something to compare, that is shown first.
  const [panel, setPanel] = useState<PanelId | null>(
    () => view.pictures.find((p) => pairOf(view.pictures.filter((q) => q.panel === p.panel)))?.panel ?? null,
  );
  const where = panel === null ? t('paint.wholeCar') : panelName(locale, panel, view.body);
  const here = view.pictures.filter((p) => p.panel === panel);
  const note = `${view.customer}, ${view.makeModel}, ${t('jobs.number', { number: view.number })}`;
  return (
    <Place label={t('paint.layer.pictures')} columns="even">
      <Column label={t('paint.layer.pictures')}>
        <Head level={1} title={t('paint.layer.pictures')} note={note}>
          <LinkTo quiet to={`/jobs/${jobId}`}>
            {t('card.back')}
          </LinkTo>
        </Head>
        <div className={css['car']}>
          <FlatCar
            body={view.body}
            label={t('paint.layer.pictures')}
            look={looksOf(view.pictures)}
            selected={panel === null ? [] : [panel]}
            onPanel={setPanel}
          />
        </div>
        <p className="t1 dusty">{t('paint.pictureHint')}</p>
        <AddPicture jobId={jobId} panel={panel} agreed={view.agreed} />
      </Column>
      <Column label={where} divided>
        <Head title={<span className={css['name']}>{where}</span>}>
          {panel === null ? null : (
            <LinkButton quiet onPress={() => setPanel(null)}>
              {t('paint.wholeCar')}
            </LinkButton>
          )}
        </Head>
        <PicturesHere pictures={here} />
      </Column>
    </Place>
  );
}

function beforeFirst(a: PictureView, b: PictureView): number {
  return READING_PHASES.indexOf(a.phase) - READING_PHASES.indexOf(b.phase);
}

function PicturesHere(props: { readonly pictures: readonly PictureView[] }): ReactNode {
  const t = useText();
  const pair = pairOf(props.pictures);
  if (props.pictures.length === 0) return <Empty title={t('paint.noPictures')} />;
  return (
    <Stack gap={3}>
      {pair ? <BeforeAfter key={`${pair.before.id} ${pair.after.id}`} {...pair} /> : null}
      <div className={css['gallery']}>
        {props.pictures.toSorted(beforeFirst).map((p) => (
          <Picture key={p.id} picture={p} />
        ))}
      </div>
    </Stack>
  );
}
