"""What finished jobs teach: rates, release, calibration and a backtest."""
