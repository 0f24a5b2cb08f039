"""What finished jobs teach: rates, chances of failure, calibration and a backtest."""
