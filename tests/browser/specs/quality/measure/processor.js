// How much slower than this machine a phone is.
//
// "Four times slower" says nothing about the phone: the machines that run these checks differ by a
// factor of two, and one of them differs as much from day to day. So this machine is measured first,
// after the benchmark that Lighthouse prints as "CPU/Memory Power" (its docs/throttling.md tells how to
// calibrate with it), and slowed down to the same phone everywhere.
//
// Chromium's developer tools give a mid-tier phone, a Pixel 5, 1000 points and a low-tier one 264
// (front_end/panels/mobile_throttling/CalibrationController.ts, 2024).

const PHONE_POINTS = 1000;

let known;

/** The rate for `Emulation.setCPUThrottlingRate`, measured once: nothing else should run meanwhile. */
export async function slowdown(browser) {
  if (known) return known;
  const page = await browser.newPage();
  // The first round only makes the engine warm.
  await page.evaluate(points, 250);
  const rounds = [];
  for (let round = 0; round < 5; round += 1) rounds.push(await page.evaluate(points, 250));
  await page.close();
  // Whatever else the machine does only ever takes points away.
  const best = Math.max(...rounds);
  known = Math.max(1, best / PHONE_POINTS);
  const [here, times] = [best.toFixed(0), known.toFixed(1)];
  console.log(`  processor: ${here} points, slowed down ${times} times to a phone of ${PHONE_POINTS}`);
  return known;
}

// Runs in the page. Two halves, one that makes garbage and one that doesn't, each for so many ms.
function points(lengthMs) {
  const perSecond = (work) => {
    const start = performance.now();
    let times = 0;
    while (performance.now() - start < lengthMs) {
      // By tens, so that reading the clock doesn't count.
      for (let ten = 0; ten < 10; ten += 1) work(times + ten);
      times += 10;
    }
    return (1000 * times) / (performance.now() - start);
  };
  const joins = perSecond(() => {
    let text = "";
    for (let letter = 0; letter < 10_000; letter += 1) text += "a";
    if (text.length === 1) throw new Error("the text must be made");
  });
  const lists = [0, 1].map(() => Array.from({ length: 100_000 }, (_, index) => index));
  const copies = perSecond((time) => {
    const [from, to] = [lists[time % 2], lists[(time + 1) % 2]];
    for (let index = 0; index < from.length; index += 1) to[index] = from[index];
  });
  return (joins / 10 + copies / 10) / 2;
}
