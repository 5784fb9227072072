import type { Page } from 'playwright/test';

// A player who has never seen the app: looks at the words on the screen, and does to the strings on it what they say. Nothing else is known to it.

/** How fast a held peg turns, in cents a second, and after how many seconds of holding it begins to. */
const heldCentsPerSecond = 70;
const heldAfterSeconds = 0.25;
/** Below this many cents the peg is only touched; one touch is about half a cent. */
const finestHoldCents = 5;
const touchCents = 0.6;
/** A careful hand turns a little less far than told: what is left is told again. */
const caution = 0.85;

type Order = { readonly course: string; readonly word: string; readonly cents: number | null };

/**
 * What the screen asks for, from its words alone: `3 loosen`, and below it `105 c`; after a strum `Only course 2: tighten 5 c`.
 * Null where it asks for nothing.
 */
export function orderIn(text: string): Order | null {
  const lines = text.split('\n').map((line) => line.trim());
  const at = lines.findIndex((line) => /^\d+ (?:pluck|loosen|tighten|there|stop)$/u.test(line));
  const [course, word] = (lines[at] ?? '').split(' ');
  if (course !== undefined && word !== undefined)
    return {
      course,
      word,
      cents:
        lines
          .slice(at + 1, at + 3)
          .map(centsIn)
          .find((value) => value !== null) ?? null,
    };
  const [, ofStrum, what, cents] = /course (\d+): (pluck|loosen|tighten)(?: it)?(?: ([\d.½]+ c))?/iu.exec(text) ?? [];
  return ofStrum === undefined || what === undefined ? null : { course: ofStrum, word: what, cents: centsIn(cents ?? '') };
}

const centsIn = (line: string): number | null => {
  const found = /^(?:about )?(\d+(?:\.\d+)?)?(½)? c\b/u.exec(line);
  return found === null ? null : Number(found[1] ?? 0) + (found[2] === undefined ? 0 : 0.5);
};

/** Retunes until the screen says that the instrument is in its tuning; throws with the last words seen where it does not within the time. */
export async function retuneByEye(page: Page, done: string, patienceSeconds: number): Promise<void> {
  const until = Date.now() + 1000 * patienceSeconds;
  let text = '';
  let waits = 0;
  while (Date.now() < until) {
    if (await page.getByRole('heading', { level: 1, name: done }).isVisible()) return;
    const afterStrum = page.locator('main').getByRole('button', { name: /^(?:Pluck|Loosen|Tighten) course/u });
    // What was seen may be gone by the time it is reached for: then the screen is read again.
    if (await afterStrum.isVisible()) await afterStrum.click({ timeout: 2000 }).catch(() => undefined);
    text = await page.locator('main').innerText();
    const order = orderIn(text);
    waits = order?.word === 'there' ? waits + 1 : 0;
    if (order === null) {
      if (/strum/iu.test(text)) await strings(page).getByRole('button', { name: 'all', exact: true }).click();
      await page.waitForTimeout(order === null && /strum/iu.test(text) ? 2500 : 300);
    } else if (order.word === 'pluck' || waits > 8) {
      await strings(page)
        .getByRole('button', { name: `Pluck course ${order.course}` })
        .click();
      waits = 0;
      await page.waitForTimeout(900);
    } else if (order.word === 'there') await page.waitForTimeout(250);
    else {
      if (!(await page.getByText(`Peg of ${order.course}`, { exact: true }).isVisible()))
        await strings(page)
          .getByRole('button', { name: `Pluck course ${order.course}` })
          .click();
      await turn(page, order.word === 'loosen' || order.word === 'stop' ? 'Loosen' : 'Tighten', order.cents ?? 2 * touchCents);
      await page.waitForTimeout(500);
    }
  }
  throw new Error(`after ${patienceSeconds} s the screen still said: ${text}`);
}

const strings = (page: Page) => page.getByRole('region', { name: 'Strings on the screen' });

async function turn(page: Page, way: 'Loosen' | 'Tighten', cents: number): Promise<void> {
  const peg = strings(page).getByRole('button', { name: way });
  await peg.hover();
  if (cents < finestHoldCents) {
    for (let touch = 0; touch < Math.max(1, Math.round((caution * cents) / touchCents)); touch += 1) await peg.click();
    return;
  }
  await page.mouse.down();
  await page.waitForTimeout(1000 * (heldAfterSeconds + (caution * cents) / heldCentsPerSecond));
  await page.mouse.up();
}

/** A busy machine drops bits of the sound: a course is plucked again so many times. */
const mostPlucks = 12;

/** After a retune: on to Settling, and every course plucked once, by name where the screen asks for one, so that the log has where each of them really is. */
export async function checkByEye(page: Page): Promise<void> {
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /^Check the strings/u }).click();
  const courses = strings(page).getByRole('button', { name: /^Pluck course/u });
  await courses.first().waitFor();
  const main = page.locator('main');
  const pluck = async (course: string) => {
    await strings(page)
      .getByRole('button', { name: `Pluck course ${course}` })
      .click();
    await page.waitForTimeout(1500);
  };
  const count = await courses.count();
  await main.getByRole('radiogroup', { name: 'How the strings are played' }).waitFor();
  // What was not heard is plucked again: the screen says which courses were.
  for (let tries = 0; tries < mostPlucks * count; tries += 1) {
    const text = await main.innerText();
    if (text.includes('All courses heard.')) {
      await page.keyboard.press('Escape');
      await strings(page).waitFor({ state: 'hidden' });
      // The last reading is on its way to the log.
      await page.waitForTimeout(2000);
      return;
    }
    const [, named] = /Pluck course (\d)\./u.exec(text) ?? [];
    const heard: readonly string[] = /Heard ([\d, and]+)\./u.exec(text)?.[1]?.match(/\d/gu) ?? [];
    const left = Array.from({ length: count }, (_, index) => String(count - index)).filter((course) => !heard.includes(course));
    await pluck(named ?? left[tries % left.length] ?? '1');
  }
  throw new Error(`not every course was heard in the check: ${await main.innerText()}`);
}
