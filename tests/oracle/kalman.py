"""Learning pass by pass: the three passes of learning.py through a general Kalman filter.

    pip install filterpy             (made with filterpy 2.0.0, numpy 2.4.6)
    python3 tests/oracle/kalman.py

State: six responses, level and three deviations from it. A pass measures all stations at once; the shift
and the tilt of its piece are in the covariance of the measurement, SHIFT^2 + TILT^2 xi xi', where
learning.py has them as unknowns of their own. The numbers of the model are those of learning.py.
"""

import contextlib
import io

import numpy as np
from filterpy.kalman import KalmanFilter

with contextlib.redirect_stdout(io.StringIO()):
    import importlib.util
    import pathlib

    spec = importlib.util.spec_from_file_location("learning", pathlib.Path(__file__).with_name("learning.py"))
    model = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(model)

responses = model.STATIONS * model.ARMS
n = responses + 1 + model.STATIONS
kalman = KalmanFilter(dim_x=n, dim_z=model.STATIONS)
kalman.x = np.r_[model.B_MEAN.ravel(), np.zeros(n - responses)][:, None]
kalman.P = np.diag(np.r_[[model.B_SD] * responses, model.LEVEL, [model.DEVIATION] * model.STATIONS] ** 2)
for p, (nuts, read, repeats) in enumerate(zip(model.NUTS, model.READ, model.REPEATS)):
    h = np.zeros((model.STATIONS, n))
    for s in range(model.STATIONS):
        h[s, s * model.ARMS : (s + 1) * model.ARMS] = nuts - model.NUTS[0]
        h[s, [responses, responses + 1 + s]] = 1
    own = model.LACING**2 + (model.REPEATABILITY**2 - model.RHO) / repeats + model.RHO
    piece = model.SHIFT**2 + model.TILT**2 * np.outer(model.ALONG, model.ALONG)
    kalman.update((read - model.READ[0].mean())[:, None], R=piece + np.diag(own), H=h)
    print(p + 1, "response", np.round(kalman.x[:responses, 0], 6).tolist())
    print(p + 1, "sd", np.round(np.sqrt(np.diag(kalman.P))[:responses], 6).tolist())
