// Drives hinged leaves in a rigid-body physics engine and writes what happens to
// rigidbody.json, as a check of kinematics and integration from outside.
//
//   npm ci && node run.mjs > rigidbody.json
//
// A leaf is a body on a revolute joint. Along the line from the rear pivot to the
// front pivot acts F = Fmax (1 - v/v0), v the rod's speed as the engine's own
// velocities give it. A moment M(theta) is applied against the motion. No
// gravity, damping or sleeping. Friction is not the engine's: M is all of it.
import { RevoluteJoint, Settings, Vec2, World } from 'planck';
import { readFileSync } from 'node:fs';

const version = JSON.parse(readFileSync(new URL('./node_modules/planck/package.json', import.meta.url))).version;

// The engine gives way at its joints by this much; make it nothing against 1 m.
Settings.linearSlop = 1e-6;
Settings.angularSlop = 1e-6;

const deg = Math.PI / 180;

// The resisting moment, straight from closed to open.
function moment(c, theta) {
  const share = theta / (c.open_deg * deg);
  return c.moment_closed_n_m + (c.moment_open_n_m - c.moment_closed_n_m) * share;
}

function setup(c) {
  const world = new World({ gravity: Vec2(0, 0), allowSleep: false });
  const ground = world.createBody();
  const leaf = world.createBody({ type: 'dynamic', position: Vec2(c.width_m / 2, 0), linearDamping: 0, angularDamping: 0, allowSleep: false });
  // A plate without thickness: I about its center is m L^2/12, about the hinge m L^2/3.
  leaf.setMassData({ mass: c.mass_kg, center: Vec2(0, 0), I: c.mass_kg * c.width_m ** 2 / 12 });
  world.createJoint(new RevoluteJoint({}, ground, leaf, Vec2(0, 0)));
  return { world, leaf };
}

// One opening from rest. Returns the time it takes, or null where it isn't open
// within limit seconds.
function open(c, fmax, step, limit) {
  const { world, leaf } = setup(c);
  const push = c.side === 'push';
  const rear = push ? { x: c.a_m, y: -c.b_m } : { x: -c.a_m, y: c.b_m };
  const front = { x: c.c_m - c.width_m / 2, y: push ? -c.e_m : c.e_m };
  const end = c.open_deg * deg;
  let before = 0;
  for (let n = 0; n * step < limit; n++) {
    const theta = leaf.getAngle();
    if (theta >= end) {
      return (n - 1 + (end - before) / (theta - before)) * step;
    }
    before = theta;
    const pin = leaf.getWorldPoint(Vec2(front.x, front.y));
    const velocity = leaf.getLinearVelocityFromWorldPoint(pin);
    const dx = pin.x - rear.x, dy = pin.y - rear.y, s = Math.hypot(dx, dy);
    const sign = push ? 1 : -1; // the ram lengthens or shortens to open
    const speed = sign * (velocity.x * dx + velocity.y * dy) / s;
    const force = fmax * (1 - speed / c.no_load_m_s);
    const fx = sign * force * dx / s, fy = sign * force * dy / s;
    const drive = pin.x * fy - pin.y * fx;
    const resist = moment(c, theta);
    const omega = leaf.getAngularVelocity();
    leaf.applyForce(Vec2(fx, fy), pin);
    // At rest what resists can hold the leaf, but not push it back.
    leaf.applyTorque(omega > 0 || drive > resist ? -resist : -drive);
    world.step(step, 20, 10);
  }
  return null;
}

const cases = [];
let id = 0;
for (const side of ['pull', 'push'])
  for (const open_deg of [70, 90, 110])
    for (const [mass_kg, width_m] of [[60, 2.4], [200, 4.0]])
      for (const [closed, opened] of [[60, 60], [90, 30]]) {
        const geometry = side === 'pull' ? { a_m: 0.15, b_m: 0.15, c_m: 0.8, e_m: 0.05 } : { a_m: 0.2, b_m: 0.12, c_m: 0.9, e_m: 0.05 };
        const scale = mass_kg / 60;
        cases.push({
          id: `RB-${++id}`, side, open_deg, mass_kg, width_m, ...geometry,
          moment_closed_n_m: closed * scale, moment_open_n_m: opened * scale,
          no_load_m_s: 0.02, thrust_n: 1500 * scale,
        });
      }

const limit = 60, step = 0.001;
const out = [];
for (const c of cases) {
  const time = open(c, c.thrust_n, step, limit);
  const halved = open(c, c.thrust_n, step / 2, limit);
  let low = 0, high = c.thrust_n;
  while ((high - low) / high > 5e-4) {
    const middle = (low + high) / 2;
    if (open(c, middle, step, limit) === null) low = middle; else high = middle;
  }
  out.push({ ...c, open_time_s: time, open_time_half_step_s: halved, least_thrust_n: high });
}
const rows = out.map((r) => '    ' + JSON.stringify(r)).join(',\n');
console.log(`{\n  "engine": "planck ${version}",\n  "step_s": ${step},\n  "limit_s": ${limit},\n  "set_ups": [\n${rows}\n  ]\n}`);
