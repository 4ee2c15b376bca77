import { type ReactNode, useMemo } from 'react';
import { codeModules, modulesPath, quietModules } from '../../slate/index.ts';

/** A text as a QR code, near-black on white with the quiet zone that readers ask for, whatever surrounds it. */
export function QrCode({ text, label }: { readonly text: string; readonly label: string }): ReactNode {
  const { path, size } = useMemo(() => {
    const modules = codeModules(text);
    return { path: modulesPath(modules), size: modules.size + 2 * quietModules };
  }, [text]);
  return (
    <svg
      className="qr-code"
      role="img"
      aria-label={label}
      viewBox={`0 0 ${size} ${size}`}
      shapeRendering="crispEdges"
    >
      <rect width={size} height={size} fill="#ffffff" />
      <path d={path} fill="#000000" />
    </svg>
  );
}
