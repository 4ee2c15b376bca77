import type { ReactNode } from 'react';
import type { ImportReport } from '../../contract/index.ts';
import { jobPageLabels, sentence } from '../../words/index.ts';

interface ImportPreviewProps {
  readonly name: string;
  readonly report: ImportReport;
  readonly onTakeIn: () => void;
  readonly onLeave: () => void;
}

/** Lines that are shown one by one. */
const linesShown = 100;

/** What a list would do, line by line, with each line that is left out and why. */
export function ImportPreview({ name, report, onTakeIn, onLeave }: ImportPreviewProps): ReactNode {
  const { lines, bad, badLines, findings, unknownColumns, guessed, reorders } = report;
  const count = (what: (typeof lines)[number]['what']): number =>
    lines.filter((line) => line.what === what).length;
  const [added, changed, same] = [count('added'), count('changed'), count('same')];
  const nothing = added + changed === 0 && !reorders;
  return (
    <section className="import-preview" aria-label={jobPageLabels.wouldDo(name)}>
      <h3>{jobPageLabels.wouldDo(name)}</h3>
      <ul className="wants">
        {findings.map((finding) => (
          <li key={finding.code}>{sentence(finding)}</li>
        ))}
        {unknownColumns.length === 0 ? null : (
          <li>{jobPageLabels.unknownColumns(unknownColumns.map((column) => `“${column}”`).join(', '))}</li>
        )}
        {guessed ? <li>{jobPageLabels.guessed}</li> : null}
        <li>
          {lines.length === 0 ? jobPageLabels.nothingToTakeIn : jobPageLabels.counts(added, changed, same)}
        </li>
        {reorders ? <li>{jobPageLabels.reorders}</li> : null}
        {report.encoding !== null && changed + same > 0 ? <li>{jobPageLabels.emptyCells}</li> : null}
      </ul>
      {badLines === 0 ? null : (
        <div className="bad-lines">
          <h4>{jobPageLabels.badLines(badLines)}</h4>
          <ul>
            {bad.map(({ line, finding }) => (
              <li key={`${line} ${finding.code}`}>{sentence(finding)}</li>
            ))}
          </ul>
          {badLines > bad.length ? <p>{jobPageLabels.moreBadLines(badLines - bad.length)}</p> : null}
        </div>
      )}
      {lines.length === 0 ? null : (
        <ol className="import-lines">
          {lines.slice(0, linesShown).map((line) => (
            <li key={line.line}>
              <span>
                {jobPageLabels.lineNumber} {line.line}
              </span>
              <strong>{line.name}</strong>
              <span>
                {line.what === 'changed' && line.changes.length === 0
                  ? jobPageLabels.listedAgain
                  : jobPageLabels[line.what]}
                {line.changes.map(({ field, from, to }) => (
                  <small key={field}>{jobPageLabels.fieldChanges(field, from, to)}</small>
                ))}
              </span>
            </li>
          ))}
        </ol>
      )}
      {lines.length > linesShown ? <p>{jobPageLabels.moreLines(lines.length - linesShown)}</p> : null}
      <p className="acts">
        {lines.length === 0 ? null : (
          <button type="button" disabled={nothing} onClick={onTakeIn}>
            {nothing ? jobPageLabels.nothingNew : takeInWords(added + changed)}
          </button>
        )}
        <button type="button" onClick={onLeave}>
          {jobPageLabels.leaveIt}
        </button>
      </p>
    </section>
  );
}

/** A list may do nothing but order what is there. */
function takeInWords(shots: number): string {
  return shots === 0 ? jobPageLabels.takeOrder : jobPageLabels.takeIn(shots);
}
