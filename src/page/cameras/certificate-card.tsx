import { Fragment, type ReactNode } from 'react';
import type { Station } from '../../contract/index.ts';
import { certificateSteps, pageLabels } from '../../words/index.ts';

/** What a camera that speaks FTPS needs to know the station by, and how a person brings it there. */
export function CertificateCard({ station }: { readonly station: Station }): ReactNode {
  const { certificate } = station;
  if (certificate === null) return null;
  return (
    <section className="certificate" aria-labelledby="certificate-title">
      <h3 id="certificate-title">{pageLabels.certificate}</h3>
      <p>{certificateSteps}</p>
      <p className="certificate-files">
        {['pem', 'crt'].map((ending) => (
          <a key={ending} href={`/api/v1/station/certificate.${ending}`} download>
            {pageLabels.certificateFile} .{ending}
          </a>
        ))}
      </p>
      <dl className="entry-list">
        <div>
          <dt>{pageLabels.certificateName}</dt>
          <dd>{certificate.name}</dd>
        </div>
        <div>
          <dt>{pageLabels.fingerprint}</dt>
          <dd className="fingerprint">{breakable(certificate.fingerprint)}</dd>
        </div>
      </dl>
    </section>
  );
}

/** Lines end between pairs only; what is copied stays as it is. */
function breakable(fingerprint: string): ReactNode {
  return fingerprint.split(/(?<=:)/).map((pair, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: a pair has no name but its place.
    <Fragment key={at}>
      {pair}
      <wbr />
    </Fragment>
  ));
}
