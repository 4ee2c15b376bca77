import type { FastifyReply } from 'fastify';

/** A page of a heading and a few lines, without style or script, for where the real page cannot be shown. */
export function plainPage(reply: FastifyReply, heading: string, lines: readonly string[]): FastifyReply {
  const paragraphs = lines.filter((line) => line !== '').map((line) => `<p>${escapeHtml(line)}</p>\n`);
  return reply
    .type('text/html; charset=utf-8')
    .send(
      `<!doctype html>\n<html lang="en">\n<meta charset="utf-8">\n<title>Setside</title>\n<h1>${escapeHtml(heading)}</h1>\n${paragraphs.join('')}</html>\n`,
    );
}

function escapeHtml(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
