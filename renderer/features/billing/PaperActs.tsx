import { type ReactNode, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { PartyView } from '#core/shared/views/billing.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

export type Paper = {
  readonly open: () => Promise<boolean>;
  /** Where it went; null when it was not saved. */
  readonly save: () => Promise<string | null>;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
};

/** A document on paper: open it, save it, draft the message that carries it; each says what came of it. */
export function PaperActs(props: {
  readonly paper: Paper;
  readonly mail:
    | { readonly of: 'quote'; readonly quoteId: string }
    | { readonly of: 'invoice'; readonly invoiceId: string }
    | null;
  readonly to: PartyView;
  readonly children?: ReactNode;
}): ReactNode {
  const t = useText();
  const { paper, mail, to } = props;
  const draft = useDocument('billing.emailDraft');
  const [said, setSaid] = useState('');
  const tell = async (
    saving: Promise<string | null>,
    key: 'paper.saved' | 'paper.drafted',
  ): Promise<void> => {
    setSaid('');
    const file = await saving;
    if (file !== null) setSaid(t(key, { file }));
  };
  return (
    <section>
      <Refusal refusal={paper.refusal ?? draft.refusal} />
      <Row>
        <Button busy={paper.busy} onPress={() => void paper.open()}>
          {t('paper.open')}
        </Button>
        <LinkButton onPress={() => void tell(paper.save(), 'paper.saved')}>{t('paper.save')}</LinkButton>
        {mail ? (
          <LinkButton onPress={() => void tell(draft.save(mail), 'paper.drafted')}>
            {t('paper.mail')}
          </LinkButton>
        ) : null}
        {props.children}
      </Row>
      <p className="t1 quiet" role="status">
        {said} {mail && to.email === '' ? t('paper.noEmail', { name: to.name }) : null}
      </p>
    </section>
  );
}
