import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { CustomerView } from '#core/shared/views/people.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useDocument } from '../../bridge/documents.ts';
import { useMay } from '../../bridge/person.ts';
import { useText } from '../../bridge/texts.tsx';
import { Confirm } from '../../ui/Acts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { Row } from '../../ui/Layout.tsx';
import { Refusal } from '../../ui/States.tsx';

/** What a customer may ask for about their own data: all of it as a file, or its removal. */
export function CustomerData(props: { readonly customer: CustomerView }): ReactNode {
  const t = useText();
  const isOwner = useMay('owner');
  const [asked, setAsked] = useState(false);
  const file = useDocument('people.customerFile');
  const { id: customerId } = props.customer;
  return (
    <>
      <Row>
        <LinkButton quiet onPress={() => void file.save({ customerId })}>
          {t('people.file')}
        </LinkButton>
        {isOwner && !asked ? (
          <LinkButton quiet onPress={() => setAsked(true)}>
            {t('people.erase')}
          </LinkButton>
        ) : null}
      </Row>
      <Refusal refusal={file.refusal} />
      {asked ? <Erase customer={props.customer} onNo={() => setAsked(false)} /> : null}
    </>
  );
}

function Erase(props: { readonly customer: CustomerView; readonly onNo: () => void }): ReactNode {
  const t = useText();
  const erase = useCommand('people.eraseCustomer');
  const { id: customerId, revision, name } = props.customer;
  const box = useRef<HTMLDivElement>(null);
  // What stands against it makes the question longer than the column: its answers stay in sight.
  useEffect(() => {
    if (erase.refusal) box.current?.scrollIntoView({ block: 'end' });
  }, [erase.refusal]);
  return (
    <div ref={box}>
      <Confirm
        title={t('people.eraseAsk', { name })}
        text={t('people.eraseText')}
        yes={t('people.eraseYes')}
        no={t('people.eraseNo')}
        busy={erase.busy}
        onYes={() => void erase.run({ customerId, revision })}
        onNo={props.onNo}
      >
        <p className="quiet">{t('people.eraseKept')}</p>
        <Refusal refusal={erase.refusal} />
      </Confirm>
    </div>
  );
}
