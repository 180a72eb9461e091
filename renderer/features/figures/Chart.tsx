import { type ReactNode, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Head } from '../../ui/Layout.tsx';

/** A chart with its table behind one word and the same as a file behind another. */
export function Chart(props: {
  readonly title: string;
  readonly note?: string | undefined;
  readonly chart: ReactNode;
  readonly table: ReactNode;
  readonly onCsv: () => void;
  readonly busy: boolean;
}): ReactNode {
  const t = useText();
  const [asTable, setAsTable] = useState(false);
  return (
    <section aria-label={props.title}>
      <Head title={props.title} note={props.note}>
        <LinkButton
          quiet
          label={t(asTable ? 'figures.chartOf' : 'figures.tableOf', { title: props.title })}
          onPress={() => setAsTable(!asTable)}
        >
          {t(asTable ? 'figures.asChart' : 'figures.asTable')}
        </LinkButton>
        <LinkButton
          quiet
          busy={props.busy}
          label={t('figures.csvOf', { title: props.title })}
          onPress={props.onCsv}
        >
          {t('figures.csv')}
        </LinkButton>
      </Head>
      {asTable ? props.table : props.chart}
    </section>
  );
}
