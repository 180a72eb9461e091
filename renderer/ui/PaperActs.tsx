import { type ReactNode, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import { useText } from '../bridge/texts.tsx';
import { Button, LinkButton } from './Button.tsx';
import { Row } from './Layout.tsx';
import { Refusal } from './States.tsx';

type Paper = {
  readonly open: () => Promise<boolean>;
  /** Where it went; null when it was not saved. */
  readonly save: () => Promise<string | null>;
  readonly busy: boolean;
  readonly refusal: PlainError | null;
};
type Done = 'paper.saved' | 'paper.drafted';

/** A document on paper: open it, save it, draft the message that carries it; each says what came of it. */
export function PaperActs(props: {
  readonly paper: Paper;
  /** The message; null where there is nothing to send yet. */
  readonly mail: Omit<Paper, 'open'> | null;
  readonly to: { readonly name: string; readonly email: string };
  /** One paper of several in a list: small words, and what the message lacks only once it is drafted. */
  readonly quiet?: boolean;
  readonly children?: ReactNode;
}): ReactNode {
  const t = useText();
  const { paper, mail, to, quiet = false } = props;
  const [done, setDone] = useState<{ readonly key: Done; readonly file: string } | null>(null);
  async function tell(saving: Promise<string | null>, key: Done): Promise<void> {
    setDone(null);
    const file = await saving;
    if (file !== null) setDone({ key, file });
  }
  const lacksAddress = mail !== null && to.email === '' && (!quiet || done?.key === 'paper.drafted');
  const act = (word: string, press: () => void): ReactNode => (
    <LinkButton quiet={quiet} onPress={press}>
      {word}
    </LinkButton>
  );
  return (
    <section>
      <Refusal refusal={paper.refusal ?? mail?.refusal} />
      <Row>
        {quiet ? (
          act(t('paper.open'), () => void paper.open())
        ) : (
          <Button busy={paper.busy} onPress={() => void paper.open()}>
            {t('paper.open')}
          </Button>
        )}
        {act(t('paper.save'), () => void tell(paper.save(), 'paper.saved'))}
        {mail ? act(t('paper.mail'), () => void tell(mail.save(), 'paper.drafted')) : null}
        {props.children}
      </Row>
      <p className="t1 quiet" role="status">
        {done ? t(done.key, { file: done.file }) : null}{' '}
        {lacksAddress ? t('paper.noEmail', { name: to.name }) : null}
      </p>
    </section>
  );
}
