import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

/** A gauge's own text, pasted: taken in whole or not at all. */
export function PasteReadings(props: { readonly jobId: JobId }): ReactNode {
  const t = useText();
  const [open, setOpen] = useState(false);
  const [text, setText] = useState('');
  const [added, setAdded] = useState<number | null>(null);
  const paste = useCommand('paint.pasteReadings');

  async function take(sure: boolean): Promise<void> {
    const done = await paste.run({ jobId: props.jobId, text, sure });
    if (!done.ok) return;
    setAdded(done.value.added);
    setText('');
  }
  if (!open)
    return (
      <LinkButton quiet onPress={() => setOpen(true)}>
        {t('paint.paste')}
      </LinkButton>
    );
  return (
    <section className={css['form']} aria-label={t('paint.paste')}>
      <TextField
        label={t('paint.paste')}
        hint={t('paint.pasteHint')}
        lines={5}
        value={text}
        onChange={setText}
      />
      <div className={css['entry']}>
        <Button onPress={() => void take(false)} busy={paste.busy}>
          {t('paint.takeIn')}
        </Button>
        <LinkButton onPress={() => setOpen(false)}>{t('paint.close')}</LinkButton>
        {added === null ? null : <span className="quiet">{t('paint.pasted', { n: added })}</span>}
      </div>
      <Refusal refusal={paste.refusal} />
    </section>
  );
}
