import type { ReactNode } from 'react';
import { panelName } from '#core/shared/text/sayError.ts';
import type { InspectionView, PanelInspectionView, ReadingPhase } from '#core/shared/views/paint.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import type { MarkedPoint } from '../../bridge/useReadings.ts';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Column, Head, Stack } from '../../ui/Layout.tsx';
import { Caution } from '../../ui/States.tsx';
import { FindingForm } from './FindingForm.tsx';
import { FindingList } from './FindingList.tsx';
import { LevelChoice } from './LevelChoice.tsx';
import { LifeBar } from './LifeBar.tsx';
import type { Layer } from './looks.ts';
import { EarlierFilm, EarlierFound, FilmHead, PanelMakeup } from './PanelFacts.tsx';
import { PanelPictures } from './PanelPictures.tsx';
import { ReadingsEntry } from './ReadingsEntry.tsx';

type Props = {
  readonly view: InspectionView;
  readonly panel: PanelInspectionView;
  readonly layer: Layer;
  readonly typed: { readonly text: string; readonly n: number };
  readonly point: MarkedPoint | null;
  readonly phase: ReadingPhase;
  readonly onPhase: (phase: ReadingPhase) => void;
  readonly adding: boolean;
  readonly onAdding: (adding: boolean) => void;
};

/** Everything about the panel in the lamp: film, life, findings, what it is made of, how far it is taken. */
export function PanelColumn(props: Props): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const { view, panel } = props;
  const name = panelName(locale, panel.panel, view.body);
  const n = view.panels.findIndex((p) => p.panel === panel.panel) + 1;
  return (
    <Column label={name} divided>
      <Head
        title={name.charAt(0).toUpperCase() + name.slice(1)}
        note={t('paint.of', { n, all: view.panels.length })}
        level={2}
      />
      <Stack gap={2}>
        <FilmHead panel={panel} thinTenthUm={view.thinTenthUm} />
        <EarlierFilm visits={view.earlier} panel={panel} />
        <ReadingsEntry
          key={panel.panel}
          jobId={view.jobId}
          panel={panel}
          typed={props.typed}
          point={props.point}
          phase={props.phase}
          onPhase={props.onPhase}
        />
        <LifeBar budget={panel.budget} />
        <Head title={t('paint.findings')} level={3}>
          <LinkButton quiet onPress={() => props.onAdding(!props.adding)}>
            {t('paint.pressF')}
          </LinkButton>
        </Head>
        {props.adding ? (
          <FindingForm
            jobId={view.jobId}
            panel={panel.panel}
            all={view.panels.map((p) => p.panel)}
            onClose={() => props.onAdding(false)}
          />
        ) : null}
        <FindingList jobId={view.jobId} findings={panel.findings} />
        <EarlierFound visits={view.earlier} panel={panel.panel} />
        <PanelMakeup jobId={view.jobId} panel={panel} />
        <LevelChoice key={`level-${panel.panel}`} jobId={view.jobId} panel={panel} />
        {props.layer === 'pictures' ? (
          <PanelPictures jobId={view.jobId} panel={panel.panel} pictures={panel.pictures} />
        ) : null}
        <Caution>{t('paint.caution.readingsFirst')}</Caution>
        {panel.findings.some((f) => f.reason === 'deeperThanSafe') ? (
          <Caution>
            {t('paint.caution.wetSanding')}{' '}
            <LinkTo quiet to={`/jobs/${view.jobId}/estimate`}>
              {t('paint.toEstimate')}
            </LinkTo>
          </Caution>
        ) : null}
      </Stack>
    </Column>
  );
}
