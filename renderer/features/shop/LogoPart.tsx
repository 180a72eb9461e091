import { type ReactNode, useEffect, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { isLarger, LOGO_MOST_MB, LOGO_MOST_PX } from '#core/shared/fileSizes.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { base64Of } from '../../bridge/fileText.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { ChooseFile } from '../../ui/ChooseFile.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './shop.module.css';

const TOO_LARGE = {
  code: 'LOGO_TOO_LARGE',
  data: { mostMb: LOGO_MOST_MB, mostPx: LOGO_MOST_PX },
} as const satisfies PlainError;

/** The shop's sign at the head of documents: as it is, another one, or none. */
export function LogoPart(props: { readonly logoHash: string }): ReactNode {
  const t = useText();
  const isOwner = useMay('owner');
  const set = useCommand('shop.setLogo');
  const remove = useCommand('shop.removeLogo');
  const [tooLarge, setTooLarge] = useState(false);
  const has = props.logoHash !== '';
  async function keep([chosen]: readonly File[]): Promise<void> {
    if (!chosen) return;
    const large = isLarger(chosen.size, LOGO_MOST_MB);
    setTooLarge(large);
    if (!large) await set.run({ logoBase64: await base64Of(chosen) });
  }
  return (
    <section className={css['form']}>
      <Head level={3} title={t('shop.logo')} />
      {has ? <Logo key={props.logoHash} /> : <p className="quiet">{t('shop.logoNone')}</p>}
      <Refusal refusal={tooLarge ? TOO_LARGE : (set.refusal ?? remove.refusal)} />
      {isOwner ? (
        <Row>
          <ChooseFile
            label={t('shop.logoChoose', { has })}
            accept="image/png,image/jpeg"
            busy={set.busy}
            onChoose={keep}
          />
          {has ? (
            <LinkButton quiet onPress={() => void remove.run({})}>
              {t('shop.logoOut')}
            </LinkButton>
          ) : null}
        </Row>
      ) : (
        <p className="t1 dusty">{t('shop.onlyOwner')}</p>
      )}
      <p className="t1 dusty">{t('shop.logoNote')}</p>
    </section>
  );
}

/** On white, as on paper. */
function Logo(): ReactNode {
  const t = useText();
  const { make } = useDocument('shop.logoFile');
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    let gone = false;
    void make({}).then((file) => {
      if (!file || gone) return;
      made = URL.createObjectURL(new Blob([Uint8Array.from(file.bytes)], { type: file.mime }));
      setUrl(made);
    });
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [make]);
  return <div className={css['logo']}>{url ? <img src={url} alt={t('shop.logo')} /> : null}</div>;
}
