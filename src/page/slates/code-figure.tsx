import { type ReactNode, useMemo } from 'react';
import { codeModules, modulesPath, quietModules } from '../../slate/index.ts';

interface CodeFigureProps {
  readonly text: string;
  /** What it is, for those who do not see it. */
  readonly label: string;
}

/** A QR code with its quiet zone, as large as its place. */
export function CodeFigure({ text, label }: CodeFigureProps): ReactNode {
  const { path, edge } = useMemo(() => {
    const modules = codeModules(text);
    return { path: modulesPath(modules), edge: modules.size + 2 * quietModules };
  }, [text]);
  return (
    <svg
      className="code"
      viewBox={`0 0 ${edge} ${edge}`}
      role="img"
      aria-label={label}
      shapeRendering="crispEdges"
    >
      <rect width={edge} height={edge} fill="#fff" />
      <path d={path} fill="#000" />
    </svg>
  );
}
