// Debian's Chromium through playwright-core. One browser for all; every page in a context of its own, as a fresh profile would be.
import { existsSync } from 'node:fs';
import { chromium } from 'playwright-core';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export function chromiumPath() {
  return ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find((p) => existsSync(p)) ?? null;
}

export const launch = () => chromium.launch({ executablePath: chromiumPath(), headless: true, args: FLAGS });

/** A context with one page; 'complaints' gathers console errors and requests to another origin. Without a browser it has its own. */
export async function openBrowser(address, options = {}, browser = null) {
  const own = browser ?? (await launch());
  const context = await own.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const complaints = [];
  const watch = (page) => {
    page.on('console', (m) => {
      if (m.type() === 'error' || m.type() === 'warning') complaints.push(`console: ${m.text()}`);
    });
    page.on('pageerror', (e) => complaints.push(`error: ${e.message}`));
  };
  context.on('request', (r) => {
    const url = r.url();
    if (!url.startsWith(address) && !url.startsWith('data:') && !url.startsWith('blob:')) complaints.push(`another origin: ${url}`);
  });
  context.on('page', watch);
  return {
    context,
    page: await context.newPage(),
    complaints,
    close: async () => {
      await context.close();
      if (!browser) await own.close();
    },
  };
}
