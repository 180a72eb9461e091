import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { READING_PHASES, type ReadingPhase } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

/** A gauge's own text, pasted or from its file: taken in whole or not at all. */
export function PasteForm(props: { readonly jobId: JobId; readonly onClose: () => void }): ReactNode {
  const t = useText();
  const [text, setText] = useState('');
  const [phase, setPhase] = useState<ReadingPhase>('before');
  const [added, setAdded] = useState<number | null>(null);
  const paste = useCommand('paint.pasteReadings');

  function put(next: string): void {
    setText(next);
    setAdded(null);
    paste.clear();
  }
  async function take(sure: boolean): Promise<void> {
    const done = await paste.run({ jobId: props.jobId, text, phase, sure });
    if (!done.ok) return;
    setText('');
    setAdded(done.value.added);
  }
  return (
    <section className={css['form']} aria-label={t('paint.paste')}>
      <TextField label={t('paint.paste')} hint={t('paint.pasteHint')} lines={5} value={text} onChange={put} />
      <div className={css['entry']}>
        <GaugeFile onText={put} />
        <Segmented<ReadingPhase>
          bare
          label={t('paint.phase')}
          options={READING_PHASES.map((value) => ({ value, label: t(`paint.${value}`) }))}
          value={phase}
          onChange={setPhase}
        />
        <Button onPress={() => void take(false)} busy={paste.busy}>
          {t('paint.takeIn')}
        </Button>
        <LinkButton onPress={props.onClose}>{t('paint.close')}</LinkButton>
        {added === null ? null : <span className="quiet">{t('paint.pasted', { n: added })}</span>}
      </div>
      <Refusal refusal={paste.refusal}>
        {paste.refusal?.code === 'FILM_UNIT_DOUBTFUL' ? (
          <LinkButton onPress={() => void take(true)}>{t('paint.rightAsTyped')}</LinkButton>
        ) : null}
      </Refusal>
    </section>
  );
}

/** The gauge's file, read into the field so that it can be looked at before it is taken in. */
function GaugeFile(props: { readonly onText: (text: string) => void }): ReactNode {
  const t = useText();
  return (
    <label className={css['file']}>
      {t('paint.gaugeFile')}
      <input
        type="file"
        accept=".csv,.txt,.tsv,text/csv,text/plain"
        onChange={(e) => {
          const field = e.currentTarget;
          // Bytes that are no UTF-8 become U+FFFD, which the core names as a wrong encoding.
          void field.files
            ?.item(0)
            ?.text()
            .then((text) => {
              props.onText(text);
              field.value = '';
            });
        }}
      />
    </label>
  );
}
